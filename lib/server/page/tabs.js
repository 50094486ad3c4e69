// Whether the same quilt is open in another tab of this browser.
import {banner, lift} from './say.js';

/** Warns where another tab has the quilt open; gives what to call on leaving it. */
export function meetOthers(quilt) {
  const channel = new BroadcastChannel(`farflung ${quilt}`);
  const me = Math.random();
  const warn = () => banner('tab', 'This quilt is open in another tab too. What is changed in one shows in both; neither overwrites the other.',
      [['I know', () => lift('tab')]]);
  channel.onmessage = ({data}) => {
    if (data.from === me) return;
    if (data.says === 'here') warn();
    if (data.says === 'opening') {
      warn();
      channel.postMessage({says: 'here', from: me});
    }
    if (data.says === 'leaving') lift('tab');
  };
  channel.postMessage({says: 'opening', from: me});
  const leave = () => {
    channel.postMessage({says: 'leaving', from: me});
    channel.close();
  };
  addEventListener('pagehide', leave, {once: true});
  return () => {
    removeEventListener('pagehide', leave);
    leave();
  };
}

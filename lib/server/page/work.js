// Long work: begun, watched, stopped.
import {get, of, post, Refused, remove} from './ask.js';

/**
 * Begins long work on a quilt and waits for it.
 * @param {import('./quilt.js').Quilt} quilt
 * @returns {Promise<{answer: any, words: string, file?: string, state: string, promise_kept: boolean}>}
 */
export async function work(quilt, does, wishes = {}) {
  await quilt.sending;
  return finished(quilt, await post(of(quilt.name, 'runs'), {does, ...wishes}));
}

/** Waits for a run that has begun; throws what it failed by, gives it whole where it is done or was stopped. */
export async function finished(quilt, run) {
  const ended = run.state === 'waiting' || run.state === 'running' ? await end(quilt, run.id) : run;
  if (ended.state === 'failed') throw new Refused(422, ended.answer);
  return ended;
}

/** By the event where it comes, and by asking where events are missed. */
function end(quilt, id) {
  return new Promise((done) => {
    const timer = setInterval(async () => {
      const run = await get(of(quilt.name, 'runs', id)).catch(() => null);
      if (run && !['waiting', 'running'].includes(run.state)) close(run);
    }, 2500);
    const told = ({detail}) => detail.id === id && close(detail);
    function close(run) {
      clearInterval(timer);
      quilt.removeEventListener('run', told);
      done(run);
    }
    quilt.addEventListener('run', told);
  });
}

export const stop = (quilt, id) => remove(of(quilt.name, 'runs', id));

// A picture that can be brought nearer where it stands; its frame scrolls then.
import {button, make} from './make.js';

const kNearest = 8;

/**
 * What lies over the picture stays as large on the screen as it is.
 * @param {HTMLElement} over  holds the picture and what lies over it
 * @param {HTMLElement} picture
 * @param {(seen: number[]) => number[]} looked  what comes to the middle, as shares of the picture, of which so much is seen across and down
 * @returns {{element: HTMLElement, times: () => number}}
 */
export function broughtNearer(over, picture, looked) {
  let times = 1;
  const frame = make('div', {class: 'frame'}, over);
  const nearer = button('Nearer', () => go(2 * times));
  const farther = button('Farther', () => go(times / 2), {disabled: true});

  function go(to) {
    times = to;
    picture.style.cssText = '';  // as large as fits, once more
    if (times > 1) picture.style.cssText = `width: ${times * picture.getBoundingClientRect().width}px; max-width: none; max-height: none`;
    const [x, y] = looked([frame.clientWidth / over.offsetWidth, frame.clientHeight / over.offsetHeight]);
    frame.scrollTo(x * over.offsetWidth - frame.clientWidth / 2, y * over.offsetHeight - frame.clientHeight / 2);
    nearer.disabled = times === kNearest;
    farther.disabled = times === 1;
    if (document.activeElement === document.body || document.activeElement.disabled) (times === 1 ? nearer : farther).focus();
  }

  return {element: make('div', {class: 'column'}, frame, make('div', {class: 'row'}, nearer, farther)), times: () => times};
}

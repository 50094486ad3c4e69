// What is said to whoever looks or listens: a line that goes by itself, banners that stay.
import {button, fill, make} from './make.js';

let timer = 0;

/** Where it is seen and heard: an open dialogue covers whatever stands outside it. */
const place = () => [...document.querySelectorAll('dialog[open] .said')].at(-1) ?? document.getElementById('said');

/** A dialogue has a place of its own for what is said while it is open. */
export const saidHere = () => make('div', {class: 'said', role: 'status', 'aria-live': 'polite'});

/**
 * A line at the foot of the page, read aloud by screen readers, gone after a while.
 * @returns {() => void} takes it back, where it holds no longer
 */
export function say(text) {
  const line = make('p', {}, text);
  fill(place(), line);
  clearTimeout(timer);
  timer = setTimeout(() => document.querySelectorAll('.said').forEach((one) => fill(one)), Math.max(6000, 70 * text.length));
  return () => line.remove();
}

/**
 * A banner over the page; `key` names it, so that it stands there once. Actions are [words, does].
 */
export function banner(key, text, actions = [], urgent = false) {
  lift(key);
  const bar = make('div', {class: urgent ? 'banner urgent' : 'banner', id: `banner-${key}`, role: urgent ? 'alert' : 'status'},
      make('p', {}, text), actions.map(([words, does]) => button(words, does)));
  document.getElementById('banners').append(bar);
}

export function lift(key) {
  document.getElementById(`banner-${key}`)?.remove();
}

/**
 * Asks in a dialogue of the page's own; resolves to what `read` gives, or null where she thinks better of it. What only tells has nothing to
 * leave.
 */
export function askFor(title, body, yes, {read = () => true, leave = true} = {}) {
  return new Promise((done) => {
    let answer = null;
    const box = make('dialog', {'aria-labelledby': 'ask-title'});
    const form = make('form', {method: 'dialog', onsubmit: () => (answer = read())}, make('h2', {id: 'ask-title'}, title), body,
        make('div', {class: 'row end foot'}, leave && button('Leave it', () => box.close()), make('button', {class: 'main'}, yes)));
    // However it is shut: browsers do not tell of each Escape beforehand.
    box.addEventListener('close', () => {
      box.remove();
      done(answer);
    });
    box.append(form, saidHere());
    document.body.append(box);
    box.showModal();
  });
}

// A part of the workbox that opens and shuts, and stays as it was left.
import {make} from './make.js';

/** @param {string} name  its heading @param {boolean} open  where it was never opened or shut */
export function panel(name, open, ...children) {
  const key = `panel ${name}`;
  const left = localStorage.getItem(key);
  return make('details', {class: 'panel', open: left === null ? open : left === 'open',
    ontoggle: ({target}) => localStorage.setItem(key, target.open ? 'open' : 'shut')},
  make('summary', {}, make('h2', {}, name)), make('div', {class: 'within'}, children));
}

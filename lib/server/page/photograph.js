// A photograph as the program sends it: of any kind and size, drawn on a canvas that any browser can hold.
import {Lost, Refused} from './ask.js';
import {make} from './make.js';

/**
 * As a canvas: no address of it is needed, so that the page's policy stands.
 * @typedef {{picture: HTMLCanvasElement, width: number, height: number}} Photograph  pixels of the file itself: corners are told in those
 */

/** @returns {Promise<Photograph>} */
async function drawn(address, options, words) {
  const response = await fetch(address, options).catch(() => {
    throw new Lost('The program cannot be reached.');
  });
  if (!response.ok) throw new Refused(response.status, await response.json().catch(() => null));
  const [width, height] = response.headers.get('Full-Size').split('x').map(Number);
  const bitmap = await createImageBitmap(await response.blob());
  const picture = make('canvas', {width: bitmap.width, height: bitmap.height, role: 'img', 'aria-label': words});
  picture.getContext('2d').drawImage(bitmap, 0, 0);
  bitmap.close();
  return {picture, width, height};
}

/** One that lies at an address of the program. */
export const fetched = (address, longest, words) => drawn(`${address}?longest=${longest}`, {}, words);

/** Her own file, as the program reads it. */
export const shown = (file, longest, words) => drawn(`/shown?longest=${longest}`, {method: 'POST', body: file}, words);

/** Corners, as shares of a photograph, in pixels of its file. */
export const inPixels = ({width, height}, corners) => corners.map(([x, y]) => [x * width, y * height]);
export const asShares = ({width, height}, corners) => corners.map(([x, y]) => [x / width, y / height]);

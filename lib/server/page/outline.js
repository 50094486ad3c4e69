// The outline of a print on its photograph, laid right by hand.
import {of} from './ask.js';
import {cornersOver} from './corners.js';
import {make} from './make.js';
import {asShares, fetched, inPixels} from './photograph.js';
import {askFor, say} from './say.js';
import {work} from './work.js';

const kLongest = 4096;  // pixels: sharp still where it is brought nearer

/** Of this print alone: where six lie in one photograph the corners of all would cover one another. */
export async function outline(quilt, print) {
  const name = print.photo.file.split('/').at(-1);
  const photograph = await fetched(of(quilt.name, 'photographs', name), kLongest, `The photograph ${name}`).catch(() => null);
  if (!photograph) return say('The photograph cannot be shown.');
  const shape = {label: print.name, corners: asShares(photograph, print.photo.corners)};
  let moved = false;
  const sure = await askFor(`${print.name} on its photograph`, [
    make('p', {class: 'hint'}, 'Drag each corner to the corner of the cloth, pinked tips included.'),
    cornersOver(photograph.picture, [shape], () => (moved = true))], 'Take it so');
  if (!sure || !moved) return;
  try {
    await work(quilt, 'outline', {print: print.id, corners: inPixels(photograph, shape.corners)});
  } catch (error) {
    return say(error.message);
  }
  await quilt.read();
  say('Cut anew from the photograph.');
}

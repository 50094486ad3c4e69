// The outline of a print on its photograph, laid right by hand.
import {of} from './ask.js';
import {cornersOver} from './corners.js';
import {make} from './make.js';
import {askFor, say} from './say.js';
import {work} from './work.js';

/** Of this print alone: where six lie in one photograph the corners of all would cover one another. */
export async function outline(quilt, print) {
  const name = print.photo.file.split('/').at(-1);
  const picture = new Image();
  picture.alt = `The photograph ${name}`;
  picture.src = `${of(quilt.name, 'photographs', name)}?longest=1600`;
  try {
    await picture.decode();
  } catch {
    return say('The photograph cannot be shown.');
  }
  const whole = await sizeOf(quilt, name, picture);
  const shape = {label: print.name, corners: print.photo.corners.map(([x, y]) => [x / whole.width, y / whole.height])};
  let moved = false;
  const sure = await askFor(`${print.name} on its photograph`, [
    make('p', {class: 'hint'}, 'Drag each corner to the corner of the cloth, pinked tips included.'),
    cornersOver(picture, [shape], () => (moved = true))], 'Take it so');
  if (!sure || !moved) return;
  try {
    await work(quilt, 'outline', {print: print.id, corners: shape.corners.map(([x, y]) => [x * whole.width, y * whole.height])});
  } catch (error) {
    return say(error.message);
  }
  await quilt.read();
  say('Cut anew from the photograph.');
}

/** The photograph's own size in pixels: corners are in those. */
async function sizeOf(quilt, name, picture) {
  const {naturalWidth: width, naturalHeight: height} = picture;
  if (Math.max(width, height) < 1600) return {width, height};
  const large = new Image();
  large.src = `${of(quilt.name, 'photographs', name)}?longest=4096`;
  await large.decode().catch(() => {});
  return {width: large.naturalWidth || width, height: large.naturalHeight || height};
}

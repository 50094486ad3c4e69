// The outlines of one photograph's prints, laid right by hand.
import {of} from './ask.js';
import {cornersOver} from './corners.js';
import {make} from './make.js';
import {askFor, say} from './say.js';
import {work} from './work.js';

export async function outlines(quilt, file) {
  const name = file.split('/').at(-1);
  const picture = new Image();
  picture.alt = `The photograph ${name}`;
  picture.src = `${of(quilt.name, 'photographs', name)}?longest=1600`;
  try {
    await picture.decode();
  } catch {
    return say('The photograph cannot be shown.');
  }
  const seen = quilt.file.prints.filter((print) => print.photo?.file === file && print.photo.corners);
  const whole = await sizeOf(quilt, name, picture);
  const shapes = seen.map((print) => ({print, label: print.name,
    corners: print.photo.corners.map(([x, y]) => [x / whole.width, y / whole.height])}));
  const moved = new Set();
  const sure = await askFor('Outlines on the photograph', [
    make('p', {class: 'hint'}, 'Drag each corner to the corner of the cloth, pinked tips included.'),
    cornersOver(picture, shapes, (shape) => moved.add(shape))], 'Take it so');
  if (!sure || !moved.size) return;
  for (const {print, corners} of moved) {
    try {
      await work(quilt, 'outline', {print: print.id, corners: corners.map(([x, y]) => [x * whole.width, y * whole.height])});
    } catch (error) {
      return say(error.message);
    }
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

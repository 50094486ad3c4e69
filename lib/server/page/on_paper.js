// The top as the browser prints it: alone on its page, with codes, so that a grey print reads as well.
import {fill, make} from './make.js';
import {paintCode, Painter} from './painter.js';

const kLongest = 2200;  // pixels: some 220 to the inch on Letter and A4
const kMargin = 0.04;   // of the longer side, for the numbers of rows and columns

/** An element that is seen on paper alone, drawn anew whenever the page is about to be printed, until `signal` says so. */
export function onPaper(quilt, cloths, signal) {
  const figure = make('figure', {class: 'on-paper', 'aria-hidden': 'true'});
  addEventListener('beforeprint', () => fill(figure, drawn(quilt.top, cloths),
      make('figcaption', {}, `${quilt.top.title ?? ''} ${quilt.top.finished_size}`.trim())), {signal});
  return figure;
}

function drawn(top, cloths) {
  const longest = Math.max(top.width, top.height);
  const scale = kLongest / longest;
  const margin = kMargin * longest;
  const painter = new Painter(top, cloths, scale, {codes: true});
  painter.paint();
  const canvas = make('canvas', {width: Math.ceil(scale * (top.width + margin)), height: Math.ceil(scale * (top.height + margin))});
  const context = canvas.getContext('2d');
  context.fillStyle = '#fff';
  context.fillRect(0, 0, canvas.width, canvas.height);
  context.drawImage(painter.canvas, scale * margin, scale * margin);
  context.setTransform(scale, 0, 0, scale, scale * margin, scale * margin);
  for (const [number, place] of numbers(top, margin / 2)) paintCode(context, String(number), place, margin / 2);
  return canvas;
}

/** Each row's and each column's number, beside the top. */
function numbers(top, edge) {
  const places = new Map();
  const add = (key, number, place) => places.has(key) || places.set(key, [number, place]);
  for (const {row, column, centre: [x, y]} of top.cells) {
    add(`row ${row}`, row + 1, [-edge, y]);
    if (!top.on_point || row === 0) add(`column ${column}`, column + 1, [x, -edge]);
  }
  return [...places.values()];
}

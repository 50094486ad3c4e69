// Pictures of the wall: the photograph as it came, straightened, one place cut from it, places ringed.
import {make} from './make.js';
import {boxOf, paintCode, pathOf} from './painter.js';

/** An outline in shares of a picture, in its pixels. */
export const within = ({width, height}, outline) => outline.map(([x, y]) => [x * width, y * height]);

/** One place of the wall, as it was photographed. */
export function cut(straight, outline) {
  const side = 120;
  const {left, top, width, height} = boxOf(within(straight, outline));
  const canvas = make('canvas', {width: side, height: Math.round((side * height) / width), 'aria-hidden': 'true', class: 'cut'});
  canvas.getContext('2d').drawImage(straight, left, top, width, height, 0, 0, canvas.width, canvas.height);
  return canvas;
}

/**
 * Places ringed, dark on pale, each with its name low in it; those that are unsure with a broken line and a question mark.
 * @param {{name: string, outline: number[][]}[]} places  outlines in the canvas's pixels
 */
export function ringed(canvas, places, how) {
  const context = canvas.getContext('2d');
  for (const {outline} of places) {
    for (const [width, colour] of [[9, '#fffdf7'], [5, '#17130c']]) {
      context.lineWidth = width;
      context.strokeStyle = colour;
      context.setLineDash(how === 'unsure' ? [14, 9] : []);
      context.stroke(pathOf(outline));
    }
  }
  context.setLineDash([]);
  for (const {name, outline} of places) {  // over all rings
    const {left, top, width, height} = boxOf(outline);
    if (how === 'unsure') paintCode(context, '?', [left + width / 2, top + 0.4 * height], 30);
    paintCode(context, name, [left + width / 2, top + 0.78 * height], Math.min(24, 0.26 * width));
  }
}

/** The part within four corners (shares of the picture) drawn upright, `tall` times as high as wide, by a grid of small triangles. */
export function straightened(picture, corners, tall) {
  const width = 700;
  const height = Math.round(width * tall);
  const canvas = make('canvas', {width, height, 'aria-hidden': 'true', class: 'plan'});
  const context = canvas.getContext('2d');
  const pixels = corners.map(([x, y]) => [x * picture.width, y * picture.height]);
  const from = ([u, v]) => projected(pixels, u, v);
  const steps = 16;
  for (let j = 0; j < steps; ++j) {
    for (let i = 0; i < steps; ++i) {
      const square = [[i, j], [i + 1, j], [i + 1, j + 1], [i, j + 1]].map(([x, y]) => [x / steps, y / steps]);
      for (const three of [[0, 1, 2], [0, 2, 3]]) {
        const at = three.map((k) => square[k]);
        drawTriangle(context, picture, at.map(from), at.map(([u, v]) => [u * width, v * height]));
      }
    }
  }
  return canvas;
}

/** Where (u, v) of the unit square lies in the quadrilateral, in perspective (Heckbert 1989, 2.2.3). */
function projected([p0, p1, p2, p3], u, v) {
  const [dx1, dy1] = [p1[0] - p2[0], p1[1] - p2[1]];
  const [dx2, dy2] = [p3[0] - p2[0], p3[1] - p2[1]];
  const [sx, sy] = [p0[0] - p1[0] + p2[0] - p3[0], p0[1] - p1[1] + p2[1] - p3[1]];
  const det = dx1 * dy2 - dx2 * dy1;
  const g = (sx * dy2 - dx2 * sy) / det;
  const h = (dx1 * sy - sx * dy1) / det;
  const w = g * u + h * v + 1;
  return [0, 1].map((k) => ((p1[k] - p0[k] + g * p1[k]) * u + (p3[k] - p0[k] + h * p3[k]) * v + p0[k]) / w);
}

function drawTriangle(context, picture, [a, b, c], [p, q, r]) {
  const det = (b[0] - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (b[1] - a[1]);
  const row = (k) => {
    const x = ((q[k] - p[k]) * (c[1] - a[1]) - (r[k] - p[k]) * (b[1] - a[1])) / det;
    const y = ((r[k] - p[k]) * (b[0] - a[0]) - (q[k] - p[k]) * (c[0] - a[0])) / det;
    return [x, y, p[k] - x * a[0] - y * a[1]];
  };
  const [X, Y] = [row(0), row(1)];
  const middle = [0, 1].map((k) => (p[k] + q[k] + r[k]) / 3);
  context.save();
  context.beginPath();
  for (const corner of [p, q, r]) context.lineTo(...corner.map((at, k) => at + Math.sign(at - middle[k])));  // a pixel over its neighbours: no seams show
  context.closePath();
  context.clip();
  context.transform(X[0], Y[0], X[1], Y[1], X[2], Y[2]);
  context.drawImage(picture, 0, 0);
  context.restore();
}

// Pictures of the wall: the photograph as it came, straightened, one place cut from it, places ringed.
import {make} from './make.js';
import {boxOf, paintCode, pathOf} from './painter.js';

/** One place of the wall, as it was photographed. */
export function cut(straight, outline, top) {
  const side = 120;
  const {left, top: above, width, height} = boxOf(outline);
  const scale = straight.width / top.width;
  const canvas = make('canvas', {width: side, height: Math.round((side * height) / width), 'aria-hidden': 'true', class: 'cut'});
  canvas.getContext('2d').drawImage(straight, left * scale, above * scale, width * scale, height * scale, 0, 0, canvas.width, canvas.height);
  return canvas;
}

/** Places ringed, dark on pale; those that are unsure with a broken line and a question mark. */
export function ringed(canvas, top, places, how) {
  const context = canvas.getContext('2d');
  const scale = canvas.width / top.width;
  context.setTransform(scale, 0, 0, scale, 0, 0);
  for (const {outline, centre} of places) {
    for (const [width, colour] of [[9, '#fffdf7'], [5, '#17130c']]) {
      context.lineWidth = width / scale;
      context.strokeStyle = colour;
      context.setLineDash(how === 'unsure' ? [14 / scale, 9 / scale] : []);
      context.stroke(pathOf(outline));
    }
    if (how === 'unsure') paintCode(context, '?', centre, 30 / scale);
  }
  context.setTransform(1, 0, 0, 1, 0, 0);
}

/** The part within four corners (as shares of the picture) drawn upright, strip by strip of a grid of small triangles. */
export function straightened(picture, corners, top) {
  const width = 700;
  const height = Math.round((width * top.height) / top.width);
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
  context.save();
  context.beginPath();
  for (const [x, y] of [p, q, r]) context.lineTo(x, y);
  context.closePath();
  context.clip();
  context.transform(X[0], Y[0], X[1], Y[1], X[2], Y[2]);
  context.drawImage(picture, 0, 0);
  context.restore();
}

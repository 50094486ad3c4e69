// The wall: photographed, seen beside the plan, mended where unsure, bettered by swaps.
import {of, upload} from './ask.js';
import {Cloths} from './cloths.js';
import {cornersOver} from './corners.js';
import {button, fill, make} from './make.js';
import {Painter} from './painter.js';
import {say} from './say.js';
import {swapsPanel} from './swaps_panel.js';
import {finished} from './work.js';

/** @param {import('./quilt.js').Quilt} quilt */
export function wallView(quilt) {
  const away = new AbortController();
  const cloths = new Cloths(quilt.name);
  const found = make('div', {class: 'column', 'aria-live': 'polite'});
  const input = (words, more) => {
    const file = make('input', {type: 'file', accept: 'image/*,.heic,.heif', class: 'hidden-file', tabindex: -1, 'aria-hidden': 'true', ...more,
      onchange: () => file.files[0] && read(file.files[0])});
    return [button(words, () => file.click(), {class: 'main'}), file];
  };

  async function read(file, corners = '') {
    fill(found, make('p', {class: 'quiet'}, `Reading ${file.name}…`));
    try {
      const asked = new URLSearchParams({name: file.name, ...(corners && {corners})});
      const {answer, words} = await finished(quilt, await upload(`${of(quilt.name, 'walls')}?${asked}`, file));
      await cloths.fetch(quilt.top.prints);
      fill(found, await besides(file, answer), reading(answer, words));
    } catch (error) {
      fill(found, make('p', {class: 'warn'}, error.message), await byHand(file));
    }
  }

  /** The photograph with its corners, straightened beside the plan. */
  async function besides(file, answer) {
    const picture = await shown(file);
    const {width: w, height: h} = picture;
    const [{corners}] = answer.photographs;
    const straight = straightened(picture, corners, quilt.top);
    const plan = make('canvas', {'aria-hidden': 'true', class: 'plan'});
    const painter = new Painter(quilt.top, cloths, 700 / Math.max(quilt.top.width, quilt.top.height), {codes: false});
    painter.paint();
    plan.width = painter.canvas.width;
    plan.height = painter.canvas.height;
    plan.getContext('2d').drawImage(painter.canvas, 0, 0);
    const shape = {label: 'The wall', corners: corners.map(([x, y]) => [x / w, y / h])};
    return [make('div', {class: 'two'}, make('figure', {class: 'card'}, make('figcaption', {}, 'On the wall, straightened'), straight),
        make('figure', {class: 'card'}, make('figcaption', {}, 'The plan'), plan)),
    make('details', {class: 'more'}, make('summary', {}, 'The corners are not where the blocks end'),
        cornersOver(picture, [shape]), button('Read it so', () => read(file, told(shape, w, h))))];
  }

  async function byHand(file) {
    const picture = await shown(file).catch(() => null);
    if (!picture) return null;
    const shape = {label: 'The wall', corners: [[0.1, 0.1], [0.9, 0.1], [0.9, 0.9], [0.1, 0.9]]};
    return make('div', {class: 'card'}, make('p', {}, 'Drag the corners to where the blocks end.'), cornersOver(picture, [shape]),
        button('Read it so', () => read(file, told(shape, picture.width, picture.height)), {class: 'main'}));
  }

  function reading(answer, words) {
    const laid = new Map(answer.cells.map((one) => [`${one.row} ${one.column}`, one]));
    const unsure = answer.cells.filter((one) => !one.sure);
    const differs = answer.differs ?? [];
    return make('div', {class: 'card'}, make('h2', {}, differs.length ? `${differs.length} places differ from the plan` : 'The wall hangs as planned'),
        make('pre', {class: 'words'}, words),
        unsure.length > 0 && make('h3', {}, 'Look at these and mend them'),
        make('ul', {class: 'plain-list'}, unsure.map((one) => mend(one))),
        make('div', {class: 'row'}, button('Take the wall as the layout', () => accept(laid), {class: 'main'})));
  }

  function mend(one) {
    const name = `R${one.row + 1} C${one.column + 1}`;
    const blocks = make('select', {'aria-label': `What hangs in ${name}`, onchange: () => {
      one.block = blocks.value || null;
      one.sure = true;
    }}, make('option', {value: ''}, 'Nothing'), quilt.top.blocks.map((block) => make('option', {value: block.id, selected: block.id === one.block},
        `${block.id}: ${[...new Set(block.prints)].filter((p) => p !== null).map((p) => quilt.top.prints[p].name).join(', ')}`)));
    return make('li', {}, make('strong', {}, name), blocks);
  }

  /** Cells and turns as the wall shows them become the layout, as one change. */
  async function accept(laid) {
    const {layout} = quilt.file;
    const at = (r, c) => laid.get(`${r} ${c}`);
    const cells = layout.cells.map((row, r) => row.map((block, c) => (at(r, c) ? at(r, c).block : block)));
    const turns = layout.cells.map((row, r) => row.map((_, c) => at(r, c)?.turn ?? layout.turns?.[r]?.[c] ?? 0));
    if (await quilt.set('/layout', {...layout, cells, turns})) say('The layout is as the wall hangs now. Undo brings the plan back.');
  }

  const helps = swapsPanel({quilt, away});
  const element = make('div', {class: 'page'}, make('h1', {}, 'The wall'),
      make('section', {class: 'card'}, make('p', {}, 'Stand square before the wall, all the blocks in the picture, the light even. What hangs where is read and held against the plan.'),
          make('div', {class: 'row'}, input('Photograph the wall', {capture: 'environment'}), input('Choose a photograph', {}))), found,
      make('section', {class: 'card'}, helps.element));
  return {element, close: () => away.abort()};
}

const told = (shape, w, h) => shape.corners.map(([x, y]) => `${Math.round(x * w)},${Math.round(y * h)}`).join();

/** Her photograph as a canvas: no address of it is needed, so that the page's policy stands. */
async function shown(file) {
  const bitmap = await createImageBitmap(file);
  const canvas = make('canvas', {width: bitmap.width, height: bitmap.height, role: 'img', 'aria-label': 'The photograph of the wall'});
  canvas.getContext('2d').drawImage(bitmap, 0, 0);
  bitmap.close();
  return canvas;
}

/** The part within four corners drawn upright, strip by strip of a grid of small triangles. */
function straightened(picture, corners, top) {
  const width = 700;
  const height = Math.round((width * top.height) / top.width);
  const canvas = make('canvas', {width, height, 'aria-hidden': 'true', class: 'plan'});
  const context = canvas.getContext('2d');
  const from = ([u, v]) => projected(corners, u, v);
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

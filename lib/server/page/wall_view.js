// The wall: photographed, seen beside the plan, mended where unsure, bettered by swaps.
import {of, upload} from './ask.js';
import {Cloths} from './cloths.js';
import {cornersOver} from './corners.js';
import {button, fill, make, many} from './make.js';
import {boxOf, Painter} from './painter.js';
import {asShares, inPixels, shown} from './photograph.js';
import {say} from './say.js';
import {swapsPanel} from './swaps_panel.js';
import {cut, ringed, straightened, within} from './wall_pictures.js';
import {finished} from './work.js';

const kLongest = 2600;  // pixels: as many as the wall is read from

/** @param {import('./quilt.js').Quilt} quilt */
export function wallView(quilt) {
  const away = new AbortController();
  const cloths = new Cloths(quilt.name);
  const found = make('div', {class: 'found', 'aria-live': 'polite'});
  let reading = false;
  let again = null;  // reads the last photograph once more
  const sewn = make('input', {type: 'checkbox', id: 'sewn-top', onchange: () => !reading && again?.()});
  const input = (words, more) => {
    const file = make('input', {type: 'file', accept: 'image/*,.heic,.heif', class: 'hidden-file', tabindex: -1, 'aria-hidden': 'true', ...more,
      onchange: () => {
        const [chosen] = file.files;
        file.value = '';  // so that the same one can be chosen again
        if (chosen) read(chosen);
      }});
    return [button(words, () => file.click(), {class: 'main'}), file];
  };

  async function read(file, corners = '', photograph = null, taken = null) {
    fill(found, make('p', {class: 'quiet'}, `Reading ${file.name}…`));
    const said = sewn.checked;
    const top = said || taken === 'top';
    reading = true;
    again = () => read(file, '', photograph);
    try {
      photograph ??= await shown(file, kLongest, 'The photograph of the wall');
      const asked = new URLSearchParams({name: file.name, ...(corners && {corners}), ...(top && {top: '1'})});
      const {answer} = await finished(quilt, await upload(`${of(quilt.name, 'walls')}?${asked}`, file));
      await cloths.fetch(quilt.top.prints);
      const shape = {label: 'The wall', corners: asShares(photograph, answer.photographs[0].corners)};
      const straight = straightened(photograph.picture, shape.corners, tallness(answer.cells[0].outline));
      const shows = [besides(answer, straight), byHand(file, photograph, shape, answer), whatWasRead(answer, straight)];
      fill(found, answer.hardly_read ? shows.reverse() : shows);  // that first
    } catch (error) {
      fill(found, make('p', {class: 'warn'}, error.message), photograph && byHand(file, photograph, anywhere(), {hardly_read: true}));
    } finally {
      reading = false;
    }
    if (sewn.checked !== said) again();
  }

  /** The photograph, straightened, beside the plan. */
  function besides(answer, straight) {
    const plan = make('canvas', {'aria-hidden': 'true', class: 'plan'});
    const painter = new Painter(quilt.top, cloths, 700 / Math.max(quilt.top.width, quilt.top.height), {codes: false});
    painter.paint();
    plan.width = painter.canvas.width;
    plan.height = painter.canvas.height;
    plan.getContext('2d').drawImage(painter.canvas, 0, 0);
    const differs = answer.hardly_read ? [] : answer.differs ?? [];
    const at = (list, one) => list.find(({row, column}) => row === one.row && column === one.column).outline;
    const seenAt = (list) => list.map((one) => ({name: nameOf(one), outline: within(straight, at(answer.cells, one))}));
    const scale = plan.width / quilt.top.width;
    const plannedAt = (list) => list.map((one) => ({name: nameOf(one), outline: at(quilt.top.cells, one).map(([x, y]) => [x * scale, y * scale])}));
    const seen = make('canvas', {width: straight.width, height: straight.height, 'aria-hidden': 'true', class: 'plan'});
    seen.getContext('2d').drawImage(straight, 0, 0);  // a copy: what is cut from the photograph stays without marks
    ringed(plan, plannedAt(differs), 'differs');
    ringed(seen, seenAt(differs), 'differs');
    ringed(seen, seenAt(answer.cells.filter(isUnsure)), 'unsure');
    return make('div', {class: 'two'}, make('figure', {class: 'card'}, make('figcaption', {}, 'On the wall, straightened'), seen),
        make('figure', {class: 'card'}, make('figcaption', {}, 'The plan'), plan));
  }

  /** How many times as high as wide the box about all blocks is, of which one fills so much. */
  function tallness(outline) {
    const {width, height} = boxOf(outline);
    return (quilt.top.block_height / height) / (quilt.top.block_width / width);
  }

  /** The corners over the photograph, of what it was taken to be. */
  function byHand(file, photograph, shape, {hardly_read: open, taken_as: taken}) {
    return make('details', {class: 'card', open}, make('summary', {}, open ? 'Mark where the blocks end' : 'The corners are not where the blocks end'),
        make('div', {class: 'column'}, make('p', {class: 'hint'}, 'Drag each corner to the outer corner of the blocks, borders left out.'),
            cornersOver(photograph.picture, [shape]),
            make('div', {class: 'row'}, button('Read it so', () => read(file, told(photograph, shape), photograph, taken), {class: 'main'}))));
  }

  function whatWasRead(answer, straight) {
    const laid = new Map(answer.cells.map((one) => [`${one.row} ${one.column}`, one]));
    const unsure = answer.cells.filter(isUnsure);
    const differs = answer.differs ?? [];
    const mending = unsure.length > 0 && make('ul', {class: 'mend'}, unsure.map((one) => mend(one, straight)));
    const taking = make('div', {class: 'row'}, button('Take the wall as the layout', () => accept(laid), {class: answer.hardly_read ? '' : 'main'}));
    if (answer.hardly_read) {
      return make('div', {class: 'card'}, make('h2', {}, 'The wall could hardly be read'), make('p', {class: 'warn'}, answer.says),
          !answer.tried_as_top && make('p', {class: 'hint'}, 'Is the top sewn already, its borders on? Then say so above.'),
          details('Say of each place what hangs there', mending, taking));
    }
    return make('div', {class: 'card'}, make('h2', {}, differs.length ? `${many(differs.length, 'place differs', 'places differ')} from the plan` : 'The wall hangs as planned'),
        answer.says && make('p', {class: 'hint'}, answer.says),
        unsure.length > 0 && [make('h3', {}, 'Look at these and mend them'), mending],
        differs.length > 0 && [make('h3', {}, 'What differs'), make('ul', {class: 'differs'}, differs.map((one) => make('li', {}, make('strong', {}, nameOf(one)),
            `${laid.get(`${one.row} ${one.column}`).sure ? '' : ', not sure:'} ${differsSay(quilt, one)}`)))],
        answer.swaps?.length > 0 && details('To hang it as planned', make('ol', {}, answer.swaps.map((swap) => make('li', {}, swap.says)))),
        taking);
  }

  function mend(one, straight) {
    const name = nameOf(one);
    const blocks = make('select', {'aria-label': `What hangs in ${name}`, onchange: () => {
      one.block = blocks.value || null;
      one.sure = true;
    }}, make('option', {value: ''}, 'Nothing'), quilt.top.blocks.map((block) => make('option', {value: block.id, selected: block.id === one.block},
        blockSays(quilt, block.id))));
    return make('li', {}, make('strong', {}, name), cut(straight, one.outline), blocks);
  }

  /** Cells and turns as the wall shows them become the layout, as one change. */
  async function accept(laid) {
    await quilt.readSent();
    const {layout} = quilt.file;
    const at = (r, c) => laid.get(`${r} ${c}`);
    const cells = layout.cells.map((row, r) => row.map((block, c) => (at(r, c) ? at(r, c).block : block)));
    const turns = layout.cells.map((row, r) => row.map((_, c) => at(r, c)?.turn ?? layout.turns?.[r]?.[c] ?? 0));
    if (await quilt.set('/layout', {...layout, cells, turns})) say('The layout is as the wall hangs now. Undo brings the plan back.');
  }

  const helps = swapsPanel({quilt, away});
  const element = make('div', {class: 'page'}, make('h1', {}, 'The wall'),
      make('section', {class: 'card'}, make('p', {}, 'Stand square before the wall, all the blocks in the picture, the light even. What hangs where is read and held against the plan.'),
          make('div', {class: 'row'}, input('Photograph the wall', {capture: 'environment'}), input('Choose a photograph', {})),
          make('label', {class: 'check', for: 'sewn-top'}, sewn, 'The top is sewn already, its borders on')), found,
      make('section', {class: 'card'}, helps.element));
  return {element, close: () => away.abort()};
}

/** A place that she had better look at: read with doubt, or something there that is no block of the quilt. */
const isUnsure = (one) => !one.sure || one.holds === 'foreign';

function differsSay(quilt, {kind, planned, found}) {
  const plan = planned ? `planned is ${blockSays(quilt, planned)}.` : 'nothing is planned.';
  if (kind === 'turned') return `${blockSays(quilt, found)} hangs here turned another way than planned.`;
  if (kind === 'missing') return `Nothing hangs here; ${plan}`;
  return kind === 'foreign' ? `What hangs here is none of the quilt’s blocks; ${plan}` : `${blockSays(quilt, found)} hangs here; ${plan}`;
}

const nameOf = ({row, column}) => `R${row + 1} C${column + 1}`;

const details = (words, ...children) => make('details', {class: 'more'}, make('summary', {}, words), children);

/** "B011 (Foghorn, Samphire)" */
function blockSays({top}, id) {
  const names = new Set(top.blocks.find((block) => block.id === id)?.prints.filter((print) => print !== null).map((print) => top.prints[print].name));
  return `${id} (${[...names].join(', ')})`;
}

const told = (photograph, shape) => inPixels(photograph, shape.corners).flat().map(Math.round).join();

/** Corners to begin from where none were found. */
const anywhere = () => ({label: 'The wall', corners: [[0.1, 0.1], [0.9, 0.1], [0.9, 0.9], [0.1, 0.9]]});

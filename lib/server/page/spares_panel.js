// Spare blocks: those that no cell names; one taken up lies where the next block is tapped.
import {button, fill, make} from './make.js';
import {Painter} from './painter.js';
import {panel} from './panel.js';
import {say} from './say.js';

const kSide = 96;

export function sparesPanel(view) {
  const {quilt, cloths} = view;
  const list = make('div', {class: 'prints'});
  const hint = make('p', {class: 'hint'});
  const element = panel('Spare blocks', true, hint, list);
  let taken = null;

  const spares = () => [...quilt.top.blocks.keys()].filter((block) => !quilt.top.layout.block.includes(block));

  function take(block) {
    taken = taken === block ? null : block;
    for (const one of list.children) one.setAttribute('aria-pressed', String(Number(one.dataset.block) === taken));
    if (taken !== null) say(`${quilt.top.blocks[taken].id} in hand. Tap the block that it is to replace.`);
  }

  function show() {
    const blocks = spares();
    if (!blocks.includes(taken)) taken = null;
    element.hidden = blocks.length === 0;
    hint.textContent = 'Tap one, then the block on the top that it is to replace. That one is spare then.';
    fill(list, blocks.map((block) => {
      const names = [...new Set(quilt.top.blocks[block].prints)].filter((print) => print !== null).map((print) => quilt.top.prints[print].name);
      return button([picture(quilt, cloths, block), make('span', {class: 'code'}, quilt.top.blocks[block].id), make('span', {class: 'name'}, names.join(', '))],
          () => take(block), {class: 'chip', 'aria-pressed': String(block === taken), 'data-block': block});
    }));
  }

  /** Whether the spare in hand went where a cell was tapped. */
  async function lay(cell) {
    const block = taken;
    if (block === null || cell === null) return false;
    taken = null;
    const {row, column} = quilt.top.cells[cell];
    const laid = await quilt.set(`/layout/cells/${row}/${column}`, quilt.top.blocks[block].id);
    show();
    if (laid) say(`${quilt.top.blocks[block].id} lies in ${quilt.cellName(cell)} now. Undo takes it out again.`);
    return true;
  }

  return {element, renew: show, stood: show, holds: () => taken !== null, lay};
}

function picture(quilt, cloths, block) {
  const {top} = quilt;
  const {width, height} = top.patterns[top.blocks[block].pattern];
  const scale = (kSide * Math.min(2, devicePixelRatio || 1)) / Math.max(width, height);
  const canvas = make('canvas', {width: Math.round(width * scale), height: Math.round(height * scale), class: 'sample', 'aria-hidden': 'true'});
  const context = canvas.getContext('2d');
  context.scale(scale, scale);
  new Painter({...top, on_point: false}, cloths, scale).paintBlock(context, block, 0, [width / 2, height / 2]);
  return canvas;
}

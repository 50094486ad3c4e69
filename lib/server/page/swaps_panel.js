// Three swaps that would help, one tap each.
import {button, fill, make} from './make.js';
import {panel} from './panel.js';
import {say} from './say.js';
import {work} from './work.js';

export function swapsPanel(view) {
  const {quilt} = view;
  const list = make('ol', {class: 'helps'});
  const find = button('Find three swaps', search);

  async function search() {
    find.disabled = true;
    fill(list, make('li', {class: 'quiet'}, 'Looking…'));
    try {
      const {answer} = await work(quilt, 'swaps', {most: 3});
      show(answer.swaps ?? []);
    } catch (error) {
      fill(list);
      say(error.message);
    }
    find.disabled = false;
  }

  function show(swaps) {
    if (!swaps.length) return fill(list, make('li', {}, 'None that would help: it lies well.'));
    fill(list, swaps.map((swap) => make('li', {}, button(swap.says, (event) => make_it(event, swap)))));
  }

  async function make_it({currentTarget}, swap) {
    currentTarget.disabled = true;
    const [a, b] = [swap.a, swap.b].map(([row, column]) => quilt.top.cells.findIndex((c) => c.row === row && c.column === column));
    const {turn} = quilt.top.layout;
    const edits = a === b ? [] : [{does: 'swap', cells: [quilt.cellName(a), quilt.cellName(b)]}];
    // Turns travel with their blocks: what lies in a now lay in b before.
    for (const [cell, before, after] of [[a, turn[b], swap.turn_a], [b, turn[a], swap.turn_b]]) {
      const quarters = (after - before + 4) % 4;
      if (quarters && !(a === b && cell === b && edits.length)) edits.push({does: 'turn', cells: [quilt.cellName(cell)], quarters});
    }
    if (await quilt.change(...edits)) {
      currentTarget.closest('li').classList.add('done');
      say('Done.');
    }
  }

  return {element: panel('Three swaps that would help', true, list, find)};
}

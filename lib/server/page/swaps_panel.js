// Three swaps that would help, one tap each.
import {button, fill, make} from './make.js';
import {panel} from './panel.js';
import {say} from './say.js';
import {waits} from './waits.js';
import {work} from './work.js';

export function swapsPanel(view) {
  const {quilt} = view;
  const list = make('ol', {class: 'helps'});
  const find = button('Find three swaps', search);

  async function search() {
    const before = waits(quilt);
    if (before && quilt.top.blocks.every((block) => block.prints.includes(null))) {
      return fill(list, make('li', {}, `${before.stands}. `, before.says, '.'));
    }
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

  const cellAt = ([row, column]) => quilt.top.cells.findIndex((c) => c.row === row && c.column === column);

  async function make_it({currentTarget}, swap) {
    currentTarget.disabled = true;
    const [a, b] = [swap.a, swap.b].map(cellAt);
    const {turn} = quilt.top.layout;
    const edits = a === b ? [] : [{does: 'swap', cells: [quilt.cellName(a), quilt.cellName(b)]}];
    if (swap.whole) return done(currentTarget, [...edits, ...turnsOfWhole(swap)]);
    // Turns travel with their blocks: what lies in a now lay in b before.
    for (const [cell, before, after] of [[a, turn[b], swap.turn_a], [b, turn[a], swap.turn_b]]) {
      const quarters = (after - before + 4) % 4;
      if (quarters && !(a === b && cell === b && edits.length)) edits.push({does: 'turn', cells: [quilt.cellName(cell)], quarters});
    }
    return done(currentTarget, edits);
  }

  /** What is sewn turns half round or not at all: the place of its first block tells. */
  function turnsOfWhole({a, b, whole}) {
    const same = ([row, column], other) => row === other[0] && column === other[1];
    const size = same(a, b) ? whole.length : whole.length / 2;
    const halves = same(a, b) ? [[whole, a]] : [[whole.slice(0, size), b], [whole.slice(size), a]];
    return halves.filter(([half, from]) => !same(from, half[0].from))
      .map(([half]) => ({does: 'turn', cells: [quilt.cellName(cellAt(half[0].cell))], quarters: 2}));
  }

  async function done(target, edits) {
    if (!(await quilt.change(...edits))) return;
    target.closest('li').classList.add('done');
    say('Done.');
  }

  return {element: panel('Three swaps that would help', true, list, find)};
}

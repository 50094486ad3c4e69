// A pattern of her own, drawn on a grid of squares: each square one letter, whole or halved on a diagonal.
import {button, either, field, fill, make} from './make.js';
import {reshape} from './reshape.js';
import {say} from './say.js';

const kSlots = ['A', 'B', 'C', 'D'];
const kShapes = [['whole', 'Whole square'], ['down', 'Halved ╲'], ['up', 'Halved ╱']];
const kTones = {A: '#1d4f63', B: '#e8b44c', C: '#c6503c', D: '#7fa7a0'};

/** @param {import('./quilt.js').Quilt} quilt */
export function ownPattern(quilt) {
  let [slot, other, shape, count] = ['A', 'B', 'whole', 4];
  let squares = [];
  const board = make('div', {class: 'own-board', role: 'group', 'aria-label': 'The block, square by square'});
  const name = make('input', {type: 'text', value: 'My pattern', maxlength: 40, autocomplete: 'off'});

  function begin(n) {
    count = n;
    squares = Array.from({length: n * n}, () => ({shape: 'whole', first: 'A', second: 'A'}));
    board.style.gridTemplateColumns = `repeat(${n}, 1fr)`;
    fill(board, squares.map((square, k) => {
      const one = button('', () => {
        Object.assign(square, {shape, first: slot, second: shape === 'whole' ? slot : other});
        show(one, square, k);
      });
      show(one, square, k);
      return one;
    }));
  }

  function show(element, {shape: cut, first, second}, k) {
    const degrees = {whole: 0, down: 45, up: 135}[cut];
    element.style.background = cut === 'whole' ? kTones[first] : `linear-gradient(${degrees}deg, ${kTones[cut === 'down' ? second : first]} 50%, ${kTones[cut === 'down' ? first : second]} 50%)`;
    element.textContent = cut === 'whole' ? first : `${first} ${second}`;
    element.setAttribute('aria-label', `Square ${Math.floor(k / count) + 1}, ${(k % count) + 1}: ${cut === 'whole' ? first : `${first} and ${second}, halved`}`);
  }

  begin(count);
  const letters = (words, chosen, does) => make('div', {class: 'row'}, make('span', {}, words), either(words, kSlots.map((s) => [s, s]), chosen, does));
  return make('details', {class: 'card'}, make('summary', {}, make('h2', {}, 'A pattern of your own')), make('div', {class: 'two'}, board,
      make('div', {class: 'column'}, letters('Print', slot, (to) => (slot = to)), letters('Other half', other, (to) => (other = to)),
          either('Cut', kShapes, shape, (to) => (shape = to)),
          make('div', {class: 'row'}, make('span', {}, 'Squares across'), either('Squares across', [2, 3, 4, 5, 6].map((n) => [n, n]), count, begin)),
          field('Its name', name), make('div', {class: 'row'}, button('Use this pattern', () => {
            const pattern = patternOf(name.value.trim() || 'My pattern', squares, count, quilt.top.block_width || 9);
            if (pattern.patches.length < 2) return say('Lay at least two prints into it first.');
            return reshape(quilt, {pattern}, `${pattern.name} it is.`);
          }, {class: 'main'})))));
}

/** As a quilt's file says patterns; squares of one letter that lie side by side stay squares. */
function patternOf(name, squares, count, width) {
  const side = width / count;
  const patches = squares.flatMap(({shape, first, second}, k) => {
    const [x, y] = [(k % count) * side, Math.floor(k / count) * side];
    const [a, b, c, d] = [[x, y], [x + side, y], [x + side, y + side], [x, y + side]];
    if (shape === 'whole' || first === second) return [{slot: first, polygon: [a, b, c, d]}];
    return shape === 'down' ? [{slot: first, polygon: [a, b, c]}, {slot: second, polygon: [a, c, d]}] :
      [{slot: first, polygon: [a, b, d]}, {slot: second, polygon: [b, c, d]}];
  });
  const piecing = piecingOf(squares, count);
  const slots = Object.fromEntries([...new Set(patches.map((patch) => patch.slot))].sort().map((one) => [one, {}]));
  return {id: 'own', name, width, height: width, turns: [0, 1, 2, 3], slots, patches, piecing};
}

/**
 * How it is sewn: halves into squares, squares into rows, rows into the block. The allowances of the rows lie to the
 * left and to the right by turns, so that they nest.
 */
function piecingOf(squares, count) {
  const steps = [];
  const joined = (a, b, press) => `#${steps.push({join: [a, b], press}) - 1}`;
  let patch = 0;
  const parts = squares.map(({shape, first, second}) => {
    if (shape === 'whole' || first === second) return patch++;
    patch += 2;
    return joined(patch - 2, patch - 1, patch - 2);
  });
  const rows = Array.from({length: count}, (_, r) => parts.slice(r * count, (r + 1) * count)
      .reduce((left, right) => joined(left, right, r % 2 ? right : left)));
  rows.reduce((above, below) => joined(above, below, below));
  return steps;
}

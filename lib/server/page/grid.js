// The top as a grid for keys and screen readers: one cell of it is in the tab order, arrows move.
import {fill, make} from './make.js';
import {kCellUnits} from './stage.js';

/** What the keys do here, for whoever has the focus in the grid. */
export const kKeys = 'Arrows move, Enter takes a block and swaps it with the next, T turns, K keeps, Escape lets go.';

const kTurns = ['', ', turned a quarter', ', turned half', ', turned three quarters'];  // clockwise

/**
 * `does` has press(cell), escape(), focus(cell or null when it leaves), turn(cell), keep(cell).
 */
export class Grid {
  constructor(stage, does) {
    this.stage = stage;
    this.does = does;
    this.here = 0;
    const {cells} = stage;
    cells.setAttribute('role', 'grid');
    cells.setAttribute('aria-label', 'The top, block by block');
    cells.setAttribute('aria-description', kKeys);
    cells.addEventListener('keydown', (event) => this.key(event));
    cells.addEventListener('focusin', (event) => this.focused(Number(event.target.dataset.cell)));
    cells.addEventListener('focusout', () => this.does.focus(null));
  }

  /** The cells anew. */
  build() {
    const {quilt: {top}, cells} = this.stage;
    this.here = Math.min(this.here, top.cells.length - 1);
    const rows = new Map();
    this.elements = top.cells.map((place, cell) => {
      if (!rows.has(place.row)) rows.set(place.row, make('div', {role: 'row', 'aria-rowindex': place.row + 1}));
      const element = make('div', {role: 'gridcell', 'aria-colindex': place.column + 1, 'data-cell': cell,
        tabindex: cell === this.here ? 0 : -1});
      set(element, place, top);
      rows.get(place.row).append(element);
      return element;
    });
    cells.setAttribute('aria-rowcount', rows.size);
    cells.setAttribute('aria-colcount', Math.max(0, ...top.cells.map((place) => place.column + 1)));
    fill(cells, [...rows.values()]);
    this.name();
  }

  /** What each cell holds, said anew where it changed. */
  name() {
    const {quilt, marks} = this.stage;
    this.elements?.forEach((element, cell) => {
      const words = this.words(quilt, cell);
      if (element.getAttribute('aria-label') !== words) element.setAttribute('aria-label', words);
      const chosen = String(marks.chosen === cell);
      if (element.getAttribute('aria-selected') !== chosen) element.setAttribute('aria-selected', chosen);
    });
  }

  words(quilt, cell) {
    const {row, column} = quilt.top.cells[cell];
    const prints = quilt.printsOf(cell).map((print) => print.name).join(', ');
    const turn = quilt.top.layout.turn[cell];
    return `Row ${row + 1}, place ${column + 1}: ${prints || 'empty'}${kTurns[turn]}` +
      `${quilt.isSewn(cell) ? ', sewn to others' : ''}${quilt.top.layout.kept[cell] ? ', kept' : ''}`;
  }

  focused(cell) {
    if (Number.isNaN(cell)) return;
    this.elements[this.here].tabIndex = -1;
    this.here = cell;
    this.elements[cell].tabIndex = 0;
    this.stage.reveal(cell);
    this.does.focus(cell);
  }

  goTo(cell) {
    this.elements[cell]?.focus({preventScroll: true});
  }

  key(event) {
    if (event.ctrlKey || event.metaKey || event.altKey) return;
    const does = {
      ArrowLeft: () => this.step(-1, 0), ArrowRight: () => this.step(1, 0),
      ArrowUp: () => this.step(0, -1), ArrowDown: () => this.step(0, 1),
      Home: () => this.goTo(this.ofRow()[0]), End: () => this.goTo(this.ofRow().at(-1)),
      Enter: () => this.does.press(this.here), ' ': () => this.does.press(this.here),
      Escape: () => this.does.escape(), t: () => this.does.turn(this.here), k: () => this.does.keep(this.here),
      '+': () => this.stage.zoom(1.4), '-': () => this.stage.zoom(1 / 1.4), 0: () => this.stage.showWhole(),
    }[event.key];
    if (!does) return;
    event.preventDefault();
    does();
  }

  ofRow() {
    const {cells} = this.stage.quilt.top;
    return [...cells.keys()].filter((cell) => cells[cell].row === cells[this.here].row);
  }

  /** The nearest cell that way. */
  step(dx, dy) {
    const {cells} = this.stage.quilt.top;
    const [x, y] = cells[this.here].centre;
    let best = null;
    let least = Infinity;
    cells.forEach(({centre: [cx, cy]}, cell) => {
      const along = (cx - x) * dx + (cy - y) * dy;
      const aside = Math.abs((cx - x) * dy) + Math.abs((cy - y) * dx);
      const far = along + 3 * aside;
      if (along > 0.01 && aside <= along * 1.01 && far < least) [best, least] = [cell, far];
    });
    if (best !== null) this.goTo(best);
  }
}

/** Lays the element where the cell is, in parts of an inch: the whole is scaled with the view. */
function set(element, place, top) {
  const xs = place.outline.map((p) => p[0]);
  const ys = place.outline.map((p) => p[1]);
  const {style} = element;
  const length = (inches) => `${kCellUnits * inches}px`;
  style.left = length(Math.min(...xs));
  style.top = length(Math.min(...ys));
  style.width = length(Math.max(...xs) - Math.min(...xs));
  style.height = length(Math.max(...ys) - Math.min(...ys));
  if (top.on_point) element.classList.add('on-point');
}

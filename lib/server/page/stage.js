// The quilt on screen: painted top, marks over it, and the view's scale and place. Works in inches of the top.
import {make} from './make.js';
import {drawMarks} from './marks.js';
import {Painter, pathOf} from './painter.js';

/** Parts of an inch in which the cells are laid: browsers lay whole ones and would round a cell's edges. */
export const kCellUnits = 100;

const kMargin = 30;
const kClear = 8;  // of what stands over the corner
const kMostPixels = 2600;

export class Stage {
  /** @param {import('./quilt.js').Quilt} quilt */
  constructor(quilt, cloths) {
    this.quilt = quilt;
    this.cloths = cloths;
    this.look = {grey: false, codes: false, squint: false};
    this.marks = {chosen: null, held: null, over: null, print: null, touches: [], closest: null, casts: null};
    this.view = {scale: 10, x: 0, y: 0};
    this.canvas = make('canvas', {'aria-hidden': 'true'});
    this.cells = make('div', {class: 'cells'});
    this.element = make('div', {class: 'stage'}, this.canvas, this.cells);
    this.context = this.canvas.getContext('2d');
    this.watcher = new ResizeObserver(() => this.resized());
    this.watcher.observe(this.element);
    this.whole = true;
    this.corner = null;
  }

  close() {
    this.watcher.disconnect();
    cancelAnimationFrame(this.frame);
  }

  get top() {
    return this.quilt.top;
  }

  /** Paints everything anew: other cloths, another look, another size. */
  repaint() {
    const ratio = devicePixelRatio || 1;
    const longest = Math.max(this.top.width, this.top.height);
    const wanted = Math.min(this.fitting() * ratio * 1.4, kMostPixels / longest);
    this.painter = new Painter(this.top, this.cloths, Math.max(wanted, 2), this.look);
    this.painter.paint();
    this.paths = this.top.cells.map((cell) => pathOf(cell.outline));
    this.soft = null;
    this.ask();
  }

  /** After a change of layout: what changed alone. */
  refresh() {
    if (!this.painter || this.painter.top !== this.top) return this.repaint();
    if (this.painter.paintChanged().length) this.soft = null;
    this.ask();
  }

  resized() {
    const {width, height} = this.element.getBoundingClientRect();
    const ratio = devicePixelRatio || 1;
    if (!width || !height) return;
    this.canvas.width = Math.round(width * ratio);
    this.canvas.height = Math.round(height * ratio);
    this.size = {width, height};
    if (this.whole) this.showWhole();
    if (this.top && !this.painter) this.repaint();
    this.draw();
  }

  // The view.

  fitting() {
    return this.wholeView().scale;
  }

  /** All of the top in the middle, as large as it can be clear of the corner at the lower right. */
  wholeView() {
    const {top, size: {width, height} = {width: 600, height: 600}} = this;
    const within = (wide, high) => {
      const scale = Math.max(0.5, Math.min((wide - 2 * kMargin) / top.width, (high - 2 * kMargin) / top.height));
      return {scale, x: (wide - scale * top.width) / 2, y: (high - scale * top.height) / 2};
    };
    const all = within(width, height);
    if (!this.corner) return all;
    const [own, over] = [this.element, this.corner].map((element) => element.getBoundingClientRect());
    const [left, head] = [over.left - own.left - kClear, over.top - own.top - kClear];
    if (all.x + all.scale * top.width <= left || all.y + all.scale * top.height <= head) return all;
    const [beside, above] = [within(left + kMargin, height), within(width, head + kMargin)];
    return beside.scale > above.scale ? beside : above;
  }

  showWhole() {
    if (!this.size || !this.top) return;
    this.whole = true;
    this.show(this.wholeView());
  }

  /** Closer or further about a point of the element. */
  zoom(by, x = this.size.width / 2, y = this.size.height / 2) {
    const scale = Math.min(Math.max(this.view.scale * by, this.fitting()), this.fitting() * 16);
    if (scale <= this.fitting() * 1.001) return this.showWhole();
    this.whole = false;
    const k = scale / this.view.scale;
    this.moveTo({scale, x: x - (x - this.view.x) * k, y: y - (y - this.view.y) * k});
  }

  pan(dx, dy) {
    if (this.whole) return;
    this.moveTo({scale: this.view.scale, x: this.view.x + dx, y: this.view.y + dy});
  }

  moveTo(view) {
    const {width, height} = this.size;
    const held = (at, size, room) => (size + 2 * kMargin <= room ? (room - size) / 2 : Math.min(kMargin, Math.max(room - size - kMargin, at)));
    this.show({scale: view.scale, x: held(view.x, view.scale * this.top.width, width),
      y: held(view.y, view.scale * this.top.height, height)});
  }

  show(view) {
    this.view = view;
    const {scale, x, y} = view;
    this.cells.style.transform = `translate(${x}px, ${y}px) scale(${scale / kCellUnits})`;
    this.cells.style.setProperty('--one', `${kCellUnits / scale}px`);
    this.ask();
  }

  /** Brings a cell into sight. */
  reveal(cell) {
    if (this.whole) return;
    const [cx, cy] = this.top.cells[cell].centre;
    const [x, y] = [this.view.x + cx * this.view.scale, this.view.y + cy * this.view.scale];
    const room = 60;
    const {width, height} = this.size;
    this.pan(x < room ? room - x : Math.min(0, width - room - x), y < room ? room - y : Math.min(0, height - room - y));
  }

  /** Inches on the top, of a pointer's place. */
  inches(event) {
    const box = this.element.getBoundingClientRect();
    return [(event.clientX - box.left - this.view.x) / this.view.scale, (event.clientY - box.top - this.view.y) / this.view.scale];
  }

  /** The cell that a pointer is over, null outside. */
  cellAt(event) {
    const [x, y] = this.inches(event);
    const at = this.paths?.findIndex((path) => this.context.isPointInPath(path, ...this.unscaled(x, y))) ?? -1;
    return at < 0 ? null : at;
  }

  unscaled(x, y) {
    this.context.setTransform(1, 0, 0, 1, 0, 0);
    return [x, y];
  }

  // Drawing.

  ask() {
    if (!this.frame) this.frame = requestAnimationFrame(() => this.draw());
  }

  draw() {
    this.frame = 0;
    if (!this.painter || !this.size) return;
    const {context, painter} = this;
    const ratio = devicePixelRatio || 1;
    const {scale, x, y} = this.view;
    context.setTransform(1, 0, 0, 1, 0, 0);
    context.clearRect(0, 0, this.canvas.width, this.canvas.height);
    context.setTransform(ratio * scale, 0, 0, ratio * scale, ratio * x, ratio * y);
    context.imageSmoothingQuality = 'high';
    const picture = this.look.squint ? this.softened() : painter.canvas;
    context.drawImage(picture, 0, 0, painter.canvas.width / painter.scale, painter.canvas.height / painter.scale);
    this.drawNumbers(context);
    drawMarks(context, this);
  }

  /** As one squints from across the room: what casts there are stands out. */
  softened() {
    if (this.soft) return this.soft;
    const {canvas, scale} = this.painter;
    const soft = new OffscreenCanvas(canvas.width, canvas.height);
    const context = soft.getContext('2d');
    context.filter = `blur(${Math.round(0.7 * this.top.pitch * scale)}px) saturate(1.7)`;
    context.drawImage(canvas, 0, 0);
    this.soft = soft;
    return soft;
  }

  /** Rows and columns beside the top; where they would run into one another, every second, fifth, tenth of them. */
  drawNumbers(context) {
    const one = 1 / this.view.scale;
    context.fillStyle = getComputedStyle(this.element).color;
    context.textAlign = 'center';
    context.textBaseline = 'middle';
    const first = new Set();
    const write = (number, every, at, x, y) => {
      if (first.has(at)) return;
      first.add(at);
      if (number > 1 && number % every > 0) return;
      context.save();
      context.translate(x, y);
      context.scale(one, one);
      context.font = '600 13px system-ui, sans-serif';
      context.fillText(number, 0, 0);
      context.restore();
    };
    const [everyRow, everyColumn] = [everyFor(this.apart(1) * this.view.scale, 15), everyFor(this.apart(0) * this.view.scale, 21)];
    for (const {row, column, centre: [x, y]} of this.top.cells) {
      write(row + 1, everyRow, `r${row}`, -15 * one, y);
      if (!this.top.on_point || row === 0) write(column + 1, everyColumn, `c${column}`, x, -15 * one);
    }
  }

  /** Inches between columns (0), between rows (1). */
  apart(axis) {
    const [here] = this.top.cells;
    const next = this.top.cells.find((cell) => (axis ? cell.row === here.row + 1 : cell.row === here.row && cell.column === here.column + 1));
    return next ? Math.abs(next.centre[axis] - here.centre[axis]) : Infinity;
  }
}

/** Numbers `apart` pixels from one another are written so often that each has `room`. */
const everyFor = (apart, room) => [1, 2, 5, 10, 20, 50].find((every) => every * apart >= room) ?? 100;

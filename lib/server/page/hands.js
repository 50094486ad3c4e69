// What fingers, a mouse and keys do to the top.

const kSlip = 8;  // pixels that a finger may slip in a tap

/**
 * Taps, drags, two fingers, the wheel. `does` has tap(cell), swap(a, b).
 * @param {import('./stage.js').Stage} stage
 */
export class Hands {
  constructor(stage, does) {
    this.stage = stage;
    this.does = does;
    this.fingers = new Map();
    this.first = null;
    const {element} = stage;
    element.addEventListener('pointerdown', (event) => this.down(event));
    element.addEventListener('pointermove', (event) => this.move(event));
    element.addEventListener('pointerup', (event) => this.up(event));
    element.addEventListener('pointercancel', () => this.cancel());
    element.addEventListener('wheel', (event) => this.wheel(event), {passive: false});
    this.onKey = (event) => event.key === 'Escape' && this.cancel();
    document.addEventListener('keydown', this.onKey);
  }

  close() {
    document.removeEventListener('keydown', this.onKey);
  }

  down(event) {
    if (event.button !== 0) return;
    this.stage.element.setPointerCapture(event.pointerId);
    this.fingers.set(event.pointerId, event);
    if (this.fingers.size === 1) this.first = {event, cell: this.stage.cellAt(event), moved: false};
    else this.letGo();
  }

  move(event) {
    const before = this.fingers.get(event.pointerId);
    if (!before) return;
    if (this.fingers.size === 2) this.pinch(event, before);
    else if (this.first) this.drag(event, before);
    this.fingers.set(event.pointerId, event);
  }

  drag(event, before) {
    const {stage, first} = this;
    if (!first.moved && Math.hypot(event.clientX - first.event.clientX, event.clientY - first.event.clientY) < kSlip) return;
    first.moved = true;
    if (first.cell === null) return stage.pan(event.clientX - before.clientX, event.clientY - before.clientY);
    if (stage.top.layout.kept[first.cell] || stage.top.layout.block[first.cell] === null) return;
    const [x, y] = stage.inches(event);
    const over = stage.cellAt(event);
    stage.marks.held = {cell: first.cell, x, y};
    stage.marks.over = over === first.cell ? null : over;
    stage.ask();
  }

  pinch(event, before) {
    const other = [...this.fingers.values()].find((finger) => finger.pointerId !== event.pointerId);
    const apart = (a) => Math.hypot(a.clientX - other.clientX, a.clientY - other.clientY);
    const box = this.stage.element.getBoundingClientRect();
    this.stage.pan((event.clientX - before.clientX) / 2, (event.clientY - before.clientY) / 2);
    this.stage.zoom(apart(event) / Math.max(apart(before), 1),
        (event.clientX + other.clientX) / 2 - box.left, (event.clientY + other.clientY) / 2 - box.top);
  }

  up(event) {
    this.fingers.delete(event.pointerId);
    const {first} = this;
    if (!first || event.pointerId !== first.event.pointerId) return;
    const over = this.stage.cellAt(event);
    const held = this.stage.marks.held;
    this.letGo();
    if (!first.moved) this.does.tap(first.cell);
    else if (held && over !== null && over !== first.cell) this.does.swap(first.cell, over);
  }

  cancel() {
    this.letGo();
    this.fingers.clear();
  }

  /** Nothing is in hand any more, nothing has changed. */
  letGo() {
    this.first = null;
    if (!this.stage.marks.held && this.stage.marks.over === null) return;
    this.stage.marks.held = this.stage.marks.over = null;
    this.stage.ask();
  }

  wheel(event) {
    event.preventDefault();
    const box = this.stage.element.getBoundingClientRect();
    if (event.shiftKey || Math.abs(event.deltaX) > Math.abs(event.deltaY)) return this.stage.pan(-event.deltaX - (event.shiftKey ? event.deltaY : 0), 0);
    this.stage.zoom(Math.exp(-event.deltaY / 400), event.clientX - box.left, event.clientY - box.top);
  }
}

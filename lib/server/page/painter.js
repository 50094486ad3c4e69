// The top in real fabric, painted once at one size; a changed block is painted anew in its place.
import {plain} from './cloths.js';

const kBare = '#d8d2c4';

export class Painter {
  /**
   * @param {import('./cloths.js').Cloths} cloths
   * @param {number} pixelsPerInch
   */
  constructor(top, cloths, pixelsPerInch, look = {}) {
    this.top = top;
    this.cloths = cloths;
    this.scale = pixelsPerInch;
    this.look = look;
    this.canvas = new OffscreenCanvas(Math.ceil(top.width * pixelsPerInch), Math.ceil(top.height * pixelsPerInch));
    this.context = this.canvas.getContext('2d');
    this.shown = [];
    this.paths = top.patterns.map((pattern) => pattern.patches.map((patch) => pathOf(patch.outline)));
  }

  paint() {
    this.shown = [];
    this.context.setTransform(this.scale, 0, 0, this.scale, 0, 0);
    this.context.clearRect(0, 0, this.top.width, this.top.height);
    for (const piece of this.top.frame) this.paintFrame(piece);
    this.paintChanged();
  }

  /** Every cell whose block, turn or prints are not those that were painted. @returns {number[]} */
  paintChanged() {
    const {block, turn} = this.top.layout;
    const changed = [];
    for (let cell = 0; cell < block.length; ++cell) {
      const prints = block[cell] === null ? '' : this.top.blocks[block[cell]].prints.join();
      const now = `${block[cell]} ${turn[cell]} ${prints}`;
      if (this.shown[cell] === now) continue;
      this.shown[cell] = now;
      this.paintCell(cell);
      changed.push(cell);
    }
    return changed;
  }

  paintCell(cell) {
    const {context, top} = this;
    const place = top.cells[cell];
    context.save();
    context.setTransform(this.scale, 0, 0, this.scale, 0, 0);
    const block = top.layout.block[cell];
    if (block === null) {
      context.fillStyle = kBare;
      context.fill(pathOf(place.outline));
    } else {
      this.paintBlock(context, block, top.layout.turn[cell], place.centre);
    }
    context.restore();
  }

  /** A block about a point, on any context whose unit is the inch. */
  paintBlock(context, index, turn, [x, y]) {
    const {top} = this;
    const block = top.blocks[index];
    const pattern = top.patterns[block.pattern];
    const degrees = 90 * turn + (top.on_point ? 45 : 0);
    context.save();
    context.translate(x, y);
    context.rotate((degrees * Math.PI) / 180);
    context.translate(-pattern.width / 2, -pattern.height / 2);
    pattern.patches.forEach((patch, k) => {
      const print = top.prints[block.prints[k]];
      const path = this.paths[block.pattern][k];
      const stands = print?.upright ? (block.sewn ? 90 * (turn - block.cut_turn) : 0) - degrees : 0;
      this.fillPatch(context, path, patch.outline, print, stands, block.crops[k]);
      this.paintSeam(context, path);
    });
    if (this.look.codes) this.paintCodes(context, pattern, block, degrees);
    context.restore();
  }

  paintFrame(piece) {
    const {context} = this;
    const path = pathOf(piece.outline);
    const cloth = piece.cloth ?? {degrees: 0, across: 0, down: 0};
    this.fillPatch(context, path, piece.outline, this.top.prints[piece.print], cloth.degrees, [cloth.across, cloth.down]);
    this.paintSeam(context, path);
  }

  fillPatch(context, path, outline, print, degrees, [across, down]) {
    const swatch = print && this.cloths.at(print, this.scale, this.look.grey);
    context.fillStyle = print ? (swatch ? laid(context, swatch, print, outline, degrees, across, down) : plain(print, this.look.grey)) : kBare;
    context.fill(path);
  }

  paintSeam(context, path) {
    context.lineWidth = Math.max(0.06, 0.7 / this.scale);
    context.strokeStyle = 'rgb(20 16 10 / 34%)';
    context.stroke(path);
  }

  paintCodes(context, pattern, block, degrees) {
    pattern.patches.forEach((patch, k) => {
      const print = this.top.prints[block.prints[k]];
      const box = boxOf(patch.outline);
      const size = Math.min(1.5, 0.42 * Math.min(box.width, box.height), 0.34 * Math.sqrt(areaOf(patch.outline)));
      if (print && size * this.scale >= 7) paintCode(context, print.code, middle(patch.outline), size, degrees);
    });
  }
}

/** Dark letters on a pale plate: they read on any cloth, in grey too. */
export function paintCode(context, code, [x, y], size, degrees = 0) {
  context.save();
  context.translate(x, y);
  context.rotate((-degrees * Math.PI) / 180);
  // Fonts are asked for in whole pixels and drawn small, for the unit here is the inch.
  context.scale(size / 20, size / 20);
  context.font = '700 20px system-ui, sans-serif';
  context.textAlign = 'center';
  context.textBaseline = 'middle';
  const width = context.measureText(code).width + 10;
  context.fillStyle = 'rgb(255 253 247 / 88%)';
  context.beginPath();
  context.roundRect(-width / 2, -13, width, 26, 7);
  context.fill();
  context.fillStyle = '#17130c';
  context.fillText(code, 0, 1.5);
  context.restore();
}

/** The cloth as it was cut: the piece lies within the swatch where it fits, else within cloth that repeats it. */
function laid(context, swatch, print, outline, degrees, across, down) {
  const angle = (degrees * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const inch = print.swatch_width / swatch.width;
  const [width, height] = [print.swatch_width, inch * swatch.height];
  const box = boxOf(outline.map(([x, y]) => [x * cos + y * sin, -x * sin + y * cos]));
  const fits = box.width <= width && box.height <= height;
  const left = box.left - across * (fits ? width - box.width : width);
  const above = box.top - down * (fits ? height - box.height : height);
  const pattern = context.createPattern(swatch, 'repeat');
  pattern.setTransform(new DOMMatrix([inch * cos, inch * sin, -inch * sin, inch * cos,
    left * cos - above * sin, left * sin + above * cos]));
  return pattern;
}

export function pathOf(outline) {
  const path = new Path2D();
  outline.forEach(([x, y], k) => (k ? path.lineTo(x, y) : path.moveTo(x, y)));
  path.closePath();
  return path;
}

export function boxOf(outline) {
  const xs = outline.map((p) => p[0]);
  const ys = outline.map((p) => p[1]);
  const [left, top] = [Math.min(...xs), Math.min(...ys)];
  return {left, top, width: Math.max(...xs) - left, height: Math.max(...ys) - top};
}

function areaOf(outline) {
  const doubled = outline.reduce((sum, [x, y], k) => {
    const [nextX, nextY] = outline[(k + 1) % outline.length];
    return sum + x * nextY - nextX * y;
  }, 0);
  return Math.abs(doubled) / 2;
}

/** A point well inside: the mean of the corners, good for the convex patches that patterns are made of. */
function middle(outline) {
  return [0, 1].map((k) => outline.reduce((sum, point) => sum + point[k], 0) / outline.length);
}

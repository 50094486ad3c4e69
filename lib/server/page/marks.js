// What is drawn over the top: what is chosen and in hand, what is kept, touches, one print's copies, casts.
import {paintCode, pathOf} from './painter.js';

const kInk = '#17130c';
const kPale = '#fffdf7';
const kAlarm = '#d1190f';
const kTold = 1;  // times the cast that is usual in a shuffle

export function drawMarks(context, stage) {
  const {marks, top, paths, view} = stage;
  const one = 1 / view.scale;
  if (marks.casts) drawCasts(context, stage);
  if (marks.print !== null) veilAllBut(context, stage);
  for (const [cell, kept] of top.layout.kept.entries()) if (kept) drawPin(context, top.cells[cell], one);
  drawThreads(context, top, one);
  for (const touch of marks.touches) drawTouch(context, stage, touch, one);
  if (marks.closest) drawClosest(context, top, marks.closest, one);
  if (marks.chosen !== null) for (const cell of stage.quilt.together(marks.chosen)) ring(context, paths[cell], one, cell === marks.chosen ? 4 : 2);
  if (marks.over !== null) ring(context, paths[marks.over], one, 3);
  if (marks.held) drawHeld(context, stage, one);
}

function ring(context, path, one, width) {
  context.setLineDash([]);
  context.lineJoin = 'round';
  context.lineWidth = (width + 3) * one;
  context.strokeStyle = kInk;
  context.stroke(path);
  context.lineWidth = width * one;
  context.strokeStyle = '#ffd34d';
  context.stroke(path);
}

/** Everything but one print's copies goes pale. */
function veilAllBut(context, stage) {
  const {top, marks, painter} = stage;
  context.fillStyle = 'rgb(246 242 232 / 80%)';
  context.fillRect(0, 0, top.width, top.height);
  top.layout.block.forEach((index, cell) => {
    const block = top.blocks[index];
    if (!block?.prints.includes(marks.print)) return;
    context.save();
    context.clip(stage.paths[cell]);
    context.drawImage(painter.canvas, 0, 0, painter.canvas.width / painter.scale, painter.canvas.height / painter.scale);
    context.restore();
    context.lineWidth = 3 / stage.view.scale;
    context.setLineDash([]);
    context.strokeStyle = kInk;
    context.stroke(stage.paths[cell]);
  });
}

/**
 * Each region in its own colour, stretched so that it is seen, and where it leans more than in a shuffle the word for it.
 */
function drawCasts(context, stage) {
  const {marks: {casts}, paths, top, view} = stage;
  const strongest = casts.casts.reduce((most, one) => (one.strength > (most?.strength ?? 0) ? one : most), null);
  for (const {cell, colour} of casts.casts) {
    context.fillStyle = colour;
    context.fill(paths[cell]);
  }
  for (const one of casts.casts) {
    const size = 15 / view.scale;
    if (one === strongest || one.strength > kTold) paintCode(context, one.leans, top.cells[one.cell].centre, size);
  }
  if (strongest) ring(context, paths[strongest.cell], 1 / view.scale, 3);
}

function drawPin(context, cell, one) {
  const [x, y] = cell.centre;
  context.beginPath();
  context.arc(x, y, 7 * one, 0, 7);
  context.fillStyle = kPale;
  context.fill();
  context.lineWidth = 2.5 * one;
  context.strokeStyle = kInk;
  context.setLineDash([]);
  context.stroke();
  context.beginPath();
  context.arc(x, y, 2.5 * one, 0, 7);
  context.fillStyle = kInk;
  context.fill();
}

/** What is sewn together hangs on one running stitch. */
function drawThreads(context, top, one) {
  const {sewn} = top.layout;
  const threads = new Path2D();
  const last = new Map();
  sewn.forEach((first, cell) => {
    if (first === null) return;
    if (last.has(first)) threads.moveTo(...top.cells[last.get(first)].centre);
    if (last.has(first)) threads.lineTo(...top.cells[cell].centre);
    last.set(first, cell);
  });
  for (const [width, colour] of [[5, kPale], [2.5, kInk]]) {
    context.setLineDash([9 * one, 7 * one]);
    context.lineWidth = width * one;
    context.strokeStyle = colour;
    context.stroke(threads);
  }
  context.setLineDash([]);
}

/** The two patches of one print that share a seam: a dashed line, red on white, so that it shows on any cloth. */
function drawTouch(context, stage, touch, one) {
  const {top} = stage;
  for (const [place, patch] of [[touch.a, touch.patch_a], [touch.b, touch.patch_b]]) {
    const cell = place && top.cells.findIndex((one) => one.row === place[0] && one.column === place[1]);
    const block = place ? top.blocks[top.layout.block[cell]] : null;
    if (!block) continue;
    const pattern = top.patterns[block.pattern];
    context.save();
    context.translate(...top.cells[cell].centre);
    context.rotate(((90 * top.layout.turn[cell] + (top.on_point ? 45 : 0)) * Math.PI) / 180);
    context.translate(-pattern.width / 2, -pattern.height / 2);
    const path = pathOf(pattern.patches[patch].outline);
    context.setLineDash([]);
    context.lineWidth = 5 * one;
    context.strokeStyle = kPale;
    context.stroke(path);
    context.setLineDash([7 * one, 4 * one]);
    context.lineWidth = 3 * one;
    context.strokeStyle = kAlarm;
    context.stroke(path);
    context.restore();
  }
}

function drawClosest(context, top, [a, b], one) {
  context.setLineDash([]);
  for (const [width, colour] of [[7, kPale], [3, kInk]]) {
    context.lineWidth = width * one;
    context.strokeStyle = colour;
    context.beginPath();
    context.moveTo(...top.cells[a].centre);
    context.lineTo(...top.cells[b].centre);
    context.stroke();
  }
}

/** What is in hand, a little larger than it lies: a block, with all that it is sewn to. */
function drawHeld(context, stage, one) {
  const {marks: {held}, top} = stage;
  const cells = stage.quilt.together(held.cell).filter((cell) => top.layout.block[cell] !== null);
  const [fromX, fromY] = top.cells[held.cell].centre;
  context.fillStyle = 'rgb(246 242 232 / 70%)';
  for (const cell of cells) context.fill(stage.paths[cell]);
  context.save();
  context.translate(held.x, held.y);
  context.scale(1.08, 1.08);
  for (const cell of cells) {
    const [x, y] = top.cells[cell].centre;
    drawLifted(context, stage, cell, [x - fromX, y - fromY], one);
  }
  context.restore();
}

function drawLifted(context, {top, painter}, cell, [x, y], one) {
  const [ownX, ownY] = top.cells[cell].centre;
  const path = pathOf(top.cells[cell].outline.map(([px, py]) => [px - ownX + x, py - ownY + y]));
  context.shadowColor = 'rgb(0 0 0 / 45%)';
  context.shadowBlur = 18;
  context.fillStyle = kPale;
  context.fill(path);
  context.shadowColor = 'transparent';
  painter.paintBlock(context, top.layout.block[cell], top.layout.turn[cell], [x, y]);
  ring(context, path, one, 2);
}

// The plan at the machine: one step at a time, huge; pedals, voice, a screen that stays awake, a lock against stray touches.
import {get, of} from './ask.js';
import {Cloths} from './cloths.js';
import {button, fill, make} from './make.js';
import {Painter} from './painter.js';
import {saidHere} from './say.js';

const kOnward = ['PageDown', 'ArrowRight', 'ArrowDown', ' ', 'Enter'];
const kLong = 90;  // letters that stand large beside a picture
const kBack = ['PageUp', 'ArrowLeft', 'ArrowUp', 'Backspace'];

/** @param {import('./quilt.js').Quilt} quilt */
export async function machine(quilt) {
  const steps = await stepsOf(quilt);
  const cloths = new Cloths(quilt.name);
  const key = `machine ${quilt.name}`;
  let at = Math.min(Number(localStorage.getItem(key) ?? 0), steps.length - 1);
  let aloud = false;
  let locked = false;
  const away = new AbortController();

  const title = make('h1', {id: 'machine-title'});
  const canvas = make('canvas', {'aria-hidden': 'true'});
  const words = make('p', {class: 'huge', role: 'status', 'aria-live': 'polite', tabindex: -1});
  const list = make('p', {class: 'pieces'});
  const next = button('Next', () => go(at + 1), {class: 'main next'});
  const back = button('Back', () => go(at - 1));
  const voice = button('Say it aloud', () => {
    aloud = press(voice, !aloud);
    if (aloud) speak();
    else window.speechSynthesis?.cancel();
  }, {'aria-pressed': 'false'});
  const lock = button('Lock', () => {
    locked = press(lock, !locked);
    lock.textContent = locked ? 'Hold to unlock' : 'Lock';
    next.disabled = back.disabled = voice.disabled = leave.disabled = sewn.disabled = locked;
    show();
    (locked ? words : next).focus();
  }, {'aria-pressed': 'false'});
  const leave = button('Leave', () => box.close());
  const sewn = button('This row is sewn', async () => {
    const cells = rowOf(steps[at]);
    if (await setSewn(quilt, cells, !isSewn(quilt, cells))) show();
  });
  const box = make('dialog', {class: 'machine', 'aria-labelledby': 'machine-title'},
      make('div', {class: 'row'}, title, make('div', {class: 'row end'}, voice, lock, leave)), canvas, words, make('div', {class: 'row'}, list, sewn), make('div', {class: 'row onward'}, back, next), saidHere());
  holdToUnlock(lock, () => locked);
  box.addEventListener('cancel', (event) => locked && event.preventDefault());
  box.addEventListener('keydown', (event) => {
    // Enter and space press the button that has the focus; every other key of a pedal goes on or back, locked or not.
    const button = event.target.closest('button');
    if (button && button !== next && (event.key === 'Enter' || event.key === ' ')) return;
    go(step(event));
  });
  box.addEventListener('close', () => {
    away.abort();
    window.speechSynthesis?.cancel();
    box.remove();
  });

  function step(event) {
    const way = kOnward.includes(event.key) ? 1 : kBack.includes(event.key) ? -1 : 0;
    if (!way) return null;
    event.preventDefault();
    return at + way;
  }

  function go(to) {
    if (to === null || to < 0 || to >= steps.length) return;
    at = to;
    localStorage.setItem(key, at);
    show();
    if (aloud) speak();
  }

  function speak() {
    window.speechSynthesis?.cancel();
    window.speechSynthesis?.speak(new SpeechSynthesisUtterance(`${steps[at].title}. ${steps[at].says}`));
  }

  function show() {
    const one = steps[at];
    title.textContent = one.title;
    words.textContent = one.says;
    words.classList.toggle('long', one.says.length > kLong);
    fill(list, `Step ${at + 1} of ${steps.length}`);
    back.disabled = locked || at === 0;
    next.disabled = locked || at === steps.length - 1;
    sewn.hidden = rowOf(one).length < 2;
    press(sewn, isSewn(quilt, rowOf(one)));
    drawRow(quilt, cloths, canvas, one);
  }

  document.body.append(box);
  box.showModal();
  show();
  next.focus();
  keepAwake(away.signal);
  if (await cloths.fetch(quilt.top.prints)) show();
}

/** The screen stays lit until `signal` says so; the browser lets go of it whenever the page is hidden. */
function keepAwake(signal) {
  let awake = null;
  const ask = async () => {
    if (document.visibilityState !== 'visible' || signal.aborted) return;
    awake = await navigator.wakeLock?.request('screen').catch(() => null);
    if (signal.aborted) awake?.release().catch(() => {});
  };
  document.addEventListener('visibilitychange', ask, {signal});
  signal.addEventListener('abort', () => awake?.release().catch(() => {}));
  ask();
}

function press(element, on) {
  element.setAttribute('aria-pressed', String(on));
  return on;
}

/** A lock opens only where it is held for a second, or by its key. */
function holdToUnlock(lock, locked) {
  let since = 0;
  lock.addEventListener('pointerdown', () => (since = performance.now()));
  lock.addEventListener('click', (event) => {
    if (locked() && event.detail !== 0 && performance.now() - since < 800) event.stopImmediatePropagation();
  }, true);
}

/** Rows as the program says they are sewn. */
async function stepsOf(quilt) {
  const {rows, steps} = await get(of(quilt.name, 'rows'));
  const joining = steps.slice(1).map((says) => ({title: 'Then', says, cells: [], here: null}));
  return rows.flatMap((row) => [
    {title: row.name, says: row.stack, cells: row.cells, here: null},
    ...row.seams.map((says, k) => ({title: row.name, says, cells: row.cells, here: row.cells[k + 1] ?? null, before: row.cells[k] ?? null})),
    ...(row.press ? [{title: row.name, says: row.press, cells: row.cells, here: null}] : []),
  ]).concat(joining);
}

/** The cells of a step's row that hold blocks. */
const rowOf = ({cells}) => cells.filter((cell) => cell !== null && cell !== undefined);

/** Whether all of them are sewn to one another. */
function isSewn(quilt, cells) {
  const {sewn} = quilt.top.layout;
  return cells.length > 1 && sewn[cells[0]] !== null && cells.every((cell) => sewn[cell] === sewn[cells[0]]);
}

/** A row ticked as sewn moves whole from then on; loose again where the tick is taken off. */
async function setSewn(quilt, cells, on) {
  await quilt.readSent();
  const places = cells.map((cell) => [quilt.top.cells[cell].row, quilt.top.cells[cell].column]);
  const within = (unit) => unit.cells.every(([row, column]) => places.some((one) => one[0] === row && one[1] === column));
  const others = (quilt.file.layout.sewn ?? []).filter((unit) => !(unit.stage === 'row' && within(unit)));
  return quilt.set('/layout/sewn', on ? [...others, {stage: 'row', cells: places}] : others);
}

/** The row as it lies, the two blocks that are joined now in full, the others pale. */
function drawRow(quilt, cloths, canvas, {cells, here, before}) {
  const {top} = quilt;
  const ratio = devicePixelRatio || 1;
  const box = canvas.getBoundingClientRect();
  const whole = here === null || here === undefined;
  const named = (whole ? cells : [before, here]).filter((cell) => cell !== null && cell !== undefined);  // fillers are no cells
  const seen = named.length ? named : [...top.cells.keys()];
  const xs = seen.flatMap((cell) => top.cells[cell].outline.map((p) => p[0]));
  const ys = seen.flatMap((cell) => top.cells[cell].outline.map((p) => p[1]));
  const [left, right, above, below] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  canvas.width = box.width * ratio;
  canvas.height = box.height * ratio;
  const scale = Math.min(canvas.width / (right - left), canvas.height / (below - above)) * 0.96;
  const painter = new Painter(top, cloths, Math.min(scale, 60), {codes: true});
  const context = canvas.getContext('2d');
  context.setTransform(scale, 0, 0, scale, (canvas.width - scale * (right - left)) / 2 - scale * left, (canvas.height - scale * (below - above)) / 2 - scale * above);
  for (const cell of seen) {
    if (top.layout.block[cell] !== null) painter.paintBlock(context, top.layout.block[cell], top.layout.turn[cell], top.cells[cell].centre);
  }
}

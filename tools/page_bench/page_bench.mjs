// How fast the page is, from Chromium's own trace: each figure beside what is aimed at. Nothing is asserted.
//   FARFLUNG=build/release/farflung node tools/page_bench/page_bench.mjs [view|swap|drag|arrange|size ...]
import {execFileSync} from 'node:child_process';
import {readFileSync} from 'node:fs';
import {join} from 'node:path';
import {gzipSync} from 'node:zlib';
import {cell, go, launch, leave, middle, program, saved, step, visit, Workroom} from '../../tests/page/workroom.mjs';
import {quantile, traced} from './trace.mjs';

const kTops = [{name: 'Lap', rows: 14, columns: 12}, {name: 'Wide', rows: 40, columns: 30}];
const room = new Workroom();
const wanted = process.argv.slice(2);

function told(what, value, unit, aim, lessIsBetter = true) {
  const ratio = lessIsBetter ? aim / value : value / aim;
  const beside = aim ? `   aim ${String(aim).padStart(4)}   ${ratio.toFixed(2)} times as good` : '';
  console.log(`${what.padEnd(58)} ${value.toFixed(value < 10 ? 2 : 0).padStart(7)} ${unit.padEnd(4)}${beside}`);
}

/** The demo's quilt in its real fabrics, at another size, as the page itself makes it. */
async function prepare(page) {
  execFileSync(program, ['demo', join(room.folder, 'Demo'), '-q'], {stdio: ['ignore', 'ignore', 'inherit']});
  for (const {name, rows, columns} of kTops) {
    room.copy(join(room.folder, 'Demo'), name);
    const says = await page.evaluate(async ([quilt, shape]) => {
      const whole = await (await fetch(`/quilts/${quilt}`)).json();
      const answer = await fetch(`/quilts/${quilt}/edits`, {method: 'POST', headers: {'Content-Type': 'application/json'},
        body: JSON.stringify({version: whole.version, edits: [{does: 'reshape', value: shape}]})});
      return (await answer.json()).says;
    }, [name, {rows, columns}]);
    console.log(`${name}: ${says}`);
    try {
      execFileSync(program, ['arrange', join(room.folder, name), '--effort', '0.1', '-q'], {stdio: ['ignore', 'ignore', 'inherit']});
    } catch (error) {
      if (error.status !== 3) throw error;  // touches are left
    }
  }
}

async function atTop(browser, name) {
  const page = await visit(browser, room, step(name, 'top'));
  await cell(page, 1, 1).waitFor({state: 'attached'});
  await page.waitForFunction(() => performance.getEntriesByName('top in cloth').length > 0);
  await page.waitForTimeout(1500);  // what is asked for once all stands there
  return page;
}

/** From the address to the top on screen, in cloth; nothing kept from before. */
async function firstView(browser) {
  for (const {name, rows, columns} of kTops) {
    const [plain, cloth] = [[], []];
    for (let k = 0; k < 5; ++k) {
      const page = await visit(browser, room);
      await page.goto('about:blank');
      const trace = await traced(browser, page, async () => {
        await page.goto(`${new URL(room.address).origin}/${step(name, 'top')}`);
        await page.waitForFunction(() => performance.getEntriesByName('top in cloth').length > 0);
        await page.waitForTimeout(700);
      });
      const begun = trace.named('navigationStart').map((one) => one.at).at(-1);
      plain.push(trace.shownAfter(begun) - begun);
      cloth.push(trace.shownAfter(trace.marks('top in cloth')[0]) - begun);
      await page.context().close();
    }
    told(`First useful view, ${rows * columns} blocks: drawn, in plain colours`, quantile(plain, 0.5), 'ms', 1000);
    told(`First useful view, ${rows * columns} blocks: in cloth`, quantile(cloth, 0.5), 'ms', 1000);
  }
}

/** From the second tap to the frame that shows both blocks in their new places, and to the one with the new score. */
async function swaps(browser) {
  for (const {name, rows, columns} of kTops) {
    const page = await atTop(browser, name);
    const places = await Promise.all([...Array(24).keys()].map((k) => middle(page, 1 + (k * 5) % rows, 1 + (k * 7) % columns)));
    const trace = await traced(browser, page, async () => {
      for (let k = 0; k + 1 < places.length; k += 2) {
        await page.mouse.click(...places[k]);
        await page.waitForTimeout(120);
        await page.mouse.click(...places[k + 1]);
        await saved(page);
        await page.waitForTimeout(900);
      }
    });
    const taps = trace.inputs('pointerup').filter((_, k) => k % 2 === 1);
    const drawn = taps.map((at) => trace.shownAfter(at) - at);
    const scored = taps.map((at) => trace.shownAfter(trace.marks('scored').find((one) => one > at)) - at);
    const blocks = rows * columns;
    const aim = blocks === 168 ? 50 : null;
    told(`A swap at ${blocks} blocks: drawn (median of ${taps.length})`, quantile(drawn, 0.5), 'ms', aim);
    told(`A swap at ${blocks} blocks: drawn and scored (median)`, quantile(scored, 0.5), 'ms', aim);
    told(`A swap at ${blocks} blocks: drawn and scored (nine of ten)`, quantile(scored, 0.9), 'ms', aim);
    await page.context().close();
  }
}

/** A block carried about for three seconds, the pointer telling where it is 120 times a second. */
async function drag(browser) {
  for (const {name, rows, columns} of kTops) {
    const page = await atTop(browser, name);
    const [x, y] = await middle(page, Math.ceil(rows / 2), Math.ceil(columns / 2));
    const client = await page.context().newCDPSession(page);
    const point = (type, at, more) => client.send('Input.dispatchMouseEvent', {type, x: at[0], y: at[1], button: 'left', buttons: 1, ...more});
    const trace = await traced(browser, page, async () => {
      await point('mousePressed', [x, y], {clickCount: 1});
      const begun = performance.now();
      for (let k = 0; performance.now() - begun < 3000; ++k) {
        point('mouseMoved', [x + 150 * Math.sin(k / 25), y + 120 * Math.cos(k / 19)]);
        await new Promise((done) => setTimeout(done, begun + k * 8 - performance.now()));
      }
      await point('mouseReleased', [2, 2], {clickCount: 1});
    });
    const moves = trace.inputs('pointermove');
    const shown = trace.drawings().filter((at) => at > moves[2] && at < moves.at(-1));
    const blocks = rows * columns;
    told(`Drag at ${blocks} blocks`, (1000 * (shown.length - 1)) / (shown.at(-1) - shown[0]), '/s', blocks === 168 ? 50 : 30, false);
    await page.context().close();
  }
}

const ticks = () => {
  const fields = readFileSync(`/proc/${room.process.pid}/stat`, 'utf8').replace(/^.*\) /, '').split(' ');
  return (Number(fields[11]) + Number(fields[12])) * 10;  // milliseconds, at the usual hundred ticks a second
};

/** Arranges once through the program, asked from another page; how long it took and what it cost in the program. */
async function arrangeOnce(asker, name) {
  const before = ticks();
  const begun = performance.now();
  await asker.evaluate(async (quilt) => {
    const json = (response) => response.json();
    const run = await fetch(`/quilts/${quilt}/runs`, {method: 'POST', headers: {'Content-Type': 'application/json'},
      body: JSON.stringify({does: 'arrange', effort: 1, seed: 7, blocks: 'sewn'})}).then(json);
    for (;;) {
      const now = await fetch(`/quilts/${quilt}/runs/${run.id}`).then(json);
      if (!['waiting', 'running'].includes(now.state)) return;
      await new Promise((done) => setTimeout(done, 50));
    }
  }, name);
  return {took: performance.now() - begun, cost: ticks() - before};
}

/** By turns with a page that draws the layout of the moment, and with none. */
async function arranging(browser) {
  const [{name}] = kTops;
  const asker = await visit(browser, room);
  const [watched, alone, pictures] = [[], [], []];
  for (let k = 0; k < 4; ++k) {
    alone.push(await arrangeOnce(asker, name));
    const page = await atTop(browser, name);
    let begun;
    const trace = await traced(browser, page, async () => {
      begun = performance.now();
      watched.push(await arrangeOnce(asker, name));
    });
    const drawn = trace.drawings();
    const last = drawn.filter((at) => at - drawn[0] < watched.at(-1).took);
    pictures.push((1000 * last.length) / watched.at(-1).took);
    await page.context().close();
  }
  const least = (list, key) => Math.min(...list.map((one) => one[key]));
  told('Pictures while arranging 168 blocks', quantile(pictures, 0.5), '/s', 10, false);
  for (const [key, words] of [['cost', 'the program’s own processor time'], ['took', 'time on the clock, the browser drawing beside it']]) {
    const slower = 100 * (least(watched, key) / least(alone, key) - 1);
    console.log(`Watched, arranging costs ${slower.toFixed(1)} % more of ${words} (aim 5 %): ${Math.round(least(alone, key))} ms alone, ${Math.round(least(watched, key))} ms watched`);
  }
  await asker.context().close();
}

/** Every file of the page as it is sent, whether a first visit needs it or not. */
async function size(browser) {
  const page = await visit(browser, room);
  const seen = new Set(['', 'main.js']);
  let all = 0;
  for (const file of seen) {
    const text = await page.evaluate((name) => fetch(`/${name}`).then((response) => response.text()), file);
    all += gzipSync(text, {level: 9}).length;
    for (const [, other] of text.matchAll(/(?:from |import\(|href=|src=|src: )['"](?:\.\/)?([\w.]+\.(?:js|css|svg))['"]/g)) seen.add(other);
  }
  told(`The page’s ${seen.size} files, compressed`, all / 1000, 'KB', 150);
  await page.context().close();
}

const kFigures = {view: firstView, swap: swaps, drag, arrange: arranging, size};

await room.serve();
const browser = await launch();
try {
  const page = await visit(browser, room);
  await prepare(page);
  await page.context().close();
  for (const [name, measure] of Object.entries(kFigures)) if (!wanted.length || wanted.includes(name)) await measure(browser);
} finally {
  await leave(room, browser);
}

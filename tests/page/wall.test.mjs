// The wall: photographed, seen straightened beside the plan, mended where unsure, taken as the layout, bettered by swaps.
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {readFileSync, writeFileSync} from 'node:fs';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {atTheTop, fileOf, go, leave, press, program, source, step, Workroom} from './workroom.mjs';

const room = new Workroom();
let browser;
let page;
let wall;

const farflung = (...words) => execFileSync(program, words, {stdio: ['ignore', 'ignore', 'inherit']});
const hung = () => JSON.parse(readFileSync(join(room.folder, 'Hung', 'quilt.json'))).layout;

/** What hangs, seen a little from the side on a pale wall, a hand over two blocks of the third row: 3000 x 3400 pixels. */
async function photograph(quilt, name) {
  const picture = await page.evaluate(async (of) => {
    const {Painter} = await import('/painter.js');
    const painter = new Painter(await (await fetch(`/quilts/${of}/top`)).json(), {at: () => null}, 25);
    painter.paint();
    const bytes = new Uint8Array(await (await painter.canvas.convertToBlob()).arrayBuffer());
    return btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
  }, quilt);
  const context = await browser.newContext({viewport: {width: 1500, height: 1700}, deviceScaleFactor: 2});
  const camera = await context.newPage();
  await camera.setContent(`<body style="margin:0;background:#cfcac2"><div style="perspective:3000px;padding:130px">
    <img style="width:1150px;display:block;transform:rotateY(9deg) rotateX(4deg)" src="data:image/png;base64,${picture}">
    <div style="position:absolute;left:600px;top:600px;width:290px;height:180px;border-radius:50px;background:#b98a6c"></div></div>`);
  await camera.evaluate(() => document.querySelector('img').decode());
  const taken = join(room.folder, `${name}.jpg`);
  writeFileSync(taken, await camera.screenshot({type: 'jpeg', quality: 88}));
  await context.close();
  return taken;
}

before(async () => {
  ({browser, page} = await atTheTop(room, 'Raffle'));
  room.copy(join(room.folder, 'Raffle'), 'Hung');
  farflung('swap', join(room.folder, 'Hung'), 'R1C1', 'R2C4', '-q');
  farflung('swap', join(room.folder, 'Hung'), 'R5C2', 'R6C5', '-q');
  wall = await photograph('Hung', 'wall');
});
after(() => leave(room, browser));

test('WhatDiffersIsShownBesideThePlanAndNamed', async () => {
  await go(page, step('Raffle', 'wall'));
  await page.evaluate(() => {
    window.painted = [];
    const {fillText} = CanvasRenderingContext2D.prototype;
    CanvasRenderingContext2D.prototype.fillText = function (words, ...more) {
      window.painted.push(words);
      fillText.call(this, words, ...more);
    };
  });
  await page.locator('input[type=file]:not([capture])').setInputFiles(wall);
  await page.getByRole('heading', {level: 2, name: /differ from the plan|hangs as planned/}).waitFor({timeout: 120_000});
  const words = await page.locator('.differs').textContent();
  for (const place of ['R1 C1', 'R2 C4', 'R5 C2', 'R6 C5']) assert.ok(words.includes(place), `${place}: ${words}`);
  const painted = await page.evaluate(() => window.painted);
  for (const place of ['R1 C1', 'R2 C4', 'R5 C2', 'R6 C5']) assert.ok(painted.filter((name) => name === place).length >= 2, `${place} in both pictures`);
  await page.getByRole('heading', {name: /^[4-6] places differ from the plan$/}).waitFor();
  assert.equal(await page.locator('figure canvas.plan').count(), 2);
  const alike = await page.evaluate(() => {
    const [seen, plan] = [...document.querySelectorAll('canvas.plan')].map((canvas) => {
      const small = new OffscreenCanvas(30, 36);
      small.getContext('2d').drawImage(canvas, 0, 0, 30, 36);
      return small.getContext('2d').getImageData(0, 0, 30, 36).data;
    });
    return seen.reduce((sum, value, k) => sum + Math.abs(value - plan[k]), 0) / seen.length;
  });
  assert.ok(alike < 40, `the straightened photograph lies as the plan does: ${alike} grey levels apart`);
});

test('APlaceThatIsNotSureIsMendedByHand', async () => {
  const choice = page.getByLabel(/^What hangs in R\d+ C\d+$/).first();
  await choice.waitFor();
  assert.ok(await page.locator('.mend canvas.cut').count() >= 1);
  const list = page.getByLabel(/^What hangs in /);
  const now = hung();
  for (let k = 0; k < await list.count(); ++k) {
    const [, row, column] = (await list.nth(k).getAttribute('aria-label')).match(/R(\d+) C(\d+)/).map(Number);
    await list.nth(k).selectOption(now.cells[row - 1][column - 1]);
  }
});

test('TheWallBecomesTheLayoutAndUndoBringsThePlanBack', async () => {
  const plan = (await fileOf(page)).layout;
  await press(page, 'Take the wall as the layout');
  await page.getByText('The layout is as the wall hangs now.').waitFor();
  assert.deepEqual((await fileOf(page)).layout.cells, hung().cells);
  await go(page, step('Raffle', 'top'));
  await press(page, 'Undo');
  await page.getByText('Undone.').waitFor();
  assert.deepEqual((await fileOf(page)).layout, plan);
  await press(page, 'Redo');
  await page.getByText('Done again.').waitFor();
});

test('SwapsThatHelpAreFoundAtTheWallAndMade', async () => {
  await go(page, step('Raffle', 'wall'));
  const before = await page.evaluate(() => fetch('/quilts/Raffle').then((response) => response.json()).then(({touch, F}) => [touch.count, F]));
  await press(page, 'Find three swaps');
  await page.locator('.helps button').first().waitFor({timeout: 60_000});
  await page.locator('.helps button').first().click();
  await page.locator('.helps .done').waitFor();
  const after = await page.evaluate(() => fetch('/quilts/Raffle').then((response) => response.json()).then(({touch, F}) => [touch.count, F]));
  assert.ok(after[0] < before[0] || (after[0] === before[0] && after[1] < before[1]), `${before} ${after}`);
});

test('WhatIsNoPhotographIsSaidAndTheCornersCanBeLaidByHand', async () => {
  await page.locator('input[type=file]:not([capture])').setInputFiles({name: 'no.jpg', mimeType: 'image/jpeg', buffer: Buffer.from('no photograph')});
  await page.locator('.warn', {hasText: 'not a photograph'}).waitFor({timeout: 60_000});
  await page.locator('input[type=file]:not([capture])').setInputFiles(join(source, 'data/demo/photographs/01-table.jpg'));
  await page.getByRole('heading', {name: 'The wall could hardly be read'}).waitFor({timeout: 120_000});
  await page.getByText(/^Of 30 places (none|\d+) (is|are) sure, so no swaps are listed\. Photograph it again, nearer/).waitFor();
  assert.equal(await page.getByText('To hang it as planned').count(), 0);
  assert.ok(await page.getByRole('button', {name: /^The wall, top left corner/}).isVisible(), 'the corners can be laid at once');
  await page.getByLabel('The top is sewn already, its borders on').check();
  await page.getByText('Reading 01-table.jpg').waitFor();
  await page.getByRole('heading', {name: 'The wall could hardly be read'}).waitFor({timeout: 120_000});
  assert.equal(await page.getByText('Then say so above').count(), 0, 'she has said so');
  await page.getByLabel('The top is sewn already, its borders on').uncheck();
  await page.getByRole('heading', {name: 'The wall could hardly be read'}).waitFor({timeout: 120_000});
  await page.locator('input[type=file]:not([capture])').setInputFiles(wall);
  await page.getByText('The corners are not where the blocks end').click({timeout: 120_000});
  assert.equal(await page.getByRole('button', {name: /^The wall, .* corner/}).count(), 4);
  const drawn = await page.locator('.over-picture canvas').evaluate(({width, height}) => [width, height]);
  assert.deepEqual(drawn, [2294, 2600], 'no larger than any browser can draw');
  const before = await page.getByRole('heading', {level: 2, name: /hangs as planned|differ/}).textContent();
  await press(page, 'Read it so');
  await page.getByText(/^Reading /).waitFor();
  await page.getByRole('heading', {level: 2, name: /hangs as planned|differ/}).waitFor({timeout: 120_000});
  assert.equal(await page.getByRole('heading', {level: 2, name: /hangs as planned|differ/}).textContent(), before, 'the corners are where they were');
});

test('ASewnTopWithBordersIsTakenForOneUnasked', async () => {
  room.copy(join(room.folder, 'Raffle'), 'Sewn');
  farflung('set', join(room.folder, 'Sewn'), '/setting/borders', '[{"width": 6, "print": "P01"}]', '-q');
  const bordered = await photograph('Sewn', 'sewn');
  await go(page, step('Sewn', 'wall'));
  await page.locator('input[type=file]:not([capture])').setInputFiles(bordered);
  await page.getByText(/^It reads better as one sewn top/).waitFor({timeout: 120_000});
  assert.ok(!await page.getByLabel('The top is sewn already, its borders on').isChecked(), 'the next photograph may be of blocks');
});

test('NothingWentWrongInThePage', () => assert.deepEqual(page.wrong.filter((words) => !/422/.test(words)), []));

// Blocks that are sewn to one another, and spare ones.
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {atTheTop, cell, fileOf, go, holds, leave, middle, press, program, saved, step, Workroom} from './workroom.mjs';

const room = new Workroom();
let browser;
let page;

before(async () => ({browser, page} = await atTheTop(room, 'Raffle')));
after(() => leave(room, browser));

const prints = (words) => words.replace(/,? ?(turned (a quarter|half|three quarters)|sewn to others|kept)/g, '');
const row = async (number, columns) => Promise.all([...Array(columns).keys()].map(async (k) => prints(await holds(page, number, k + 1))));

async function drag(from, to) {
  await page.mouse.move(...(await middle(page, ...from)));
  await page.mouse.down();
  await page.mouse.move(...(await middle(page, ...to)), {steps: 6});
  await page.mouse.up();
  await saved(page);
}

test('ARowIsTickedAsSewnAtTheMachine', async () => {
  await go(page, step('Raffle', 'sheets'));
  await press(page, 'Sew from the screen');
  const title = page.locator('#machine-title');
  const first = await title.textContent();
  while (await title.textContent() === first) await page.keyboard.press('PageDown');
  await press(page, 'This row is sewn');
  await page.getByRole('button', {name: 'This row is sewn', pressed: true}).waitFor();
  await press(page, 'Leave');
  const {layout} = await fileOf(page);
  assert.deepEqual(layout.sewn, [{stage: 'row', cells: layout.cells[1].map((_, column) => [1, column])}]);
});

test('ASewnRowMovesWholeWhereOneOfItsBlocksIsDragged', async () => {
  await go(page, step('Raffle', 'top'));
  await cell(page, 2, 2).waitFor({state: 'attached'});
  const columns = (await fileOf(page)).layout.cells[1].length;
  const [second, fourth] = [await row(2, columns), await row(4, columns)];
  assert.match(await holds(page, 2, 1), /sewn to others/);
  await drag([2, 2], [4, 2]);
  await page.waitForFunction(() => /sewn to others/.test(document.querySelector('[role=row][aria-rowindex="4"] > [aria-colindex="1"]').getAttribute('aria-label')));
  assert.deepEqual([await row(2, columns), await row(4, columns)], [fourth, second]);
  assert.doesNotMatch(await holds(page, 2, 1), /sewn/);
  await press(page, 'Undo');
  await page.getByText('Undone.').waitFor();
  assert.deepEqual([await row(2, columns), await row(4, columns)], [second, fourth]);
});

test('WhatWouldHangBeyondTheWallStaysAndTheReasonIsSaid', async () => {
  const before = (await fileOf(page)).layout;
  await drag([2, 1], [4, 2]);
  await page.getByText('would hang beyond the blocks').waitFor();
  assert.deepEqual((await fileOf(page)).layout, before);
});

test('ATickTakenOffMakesTheRowLooseAgain', async () => {
  await go(page, step('Raffle', 'sheets'));
  await press(page, 'Sew from the screen');
  await page.getByRole('button', {name: 'This row is sewn', pressed: true}).click();
  await page.getByRole('button', {name: 'This row is sewn', pressed: false}).waitFor();
  await press(page, 'Leave');
  assert.deepEqual((await fileOf(page)).layout.sewn ?? [], []);
});

test('TheShoppingListOnThePageIsThePrintedOne', async () => {
  await go(page, step('Raffle', 'sheets'));
  await press(page, 'Reckon the cloth');
  await page.getByRole('heading', {name: 'To buy'}).waitFor({timeout: 60_000});
  const {list} = JSON.parse(execFileSync(program, ['cloth', join(room.folder, 'Raffle'), '--json']).toString());
  const shown = await page.locator('.plain-list li:has(strong)').evaluateAll((lines) => lines.map((line) => line.querySelector('strong').textContent));
  assert.deepEqual(shown, list.map(({prints, each, in_all: all}) => (prints.length > 1 ? `${each} each, ${all} in all` : each)));
  await page.getByText('No binding is chosen yet.').waitFor();
});

test('WhereTheClothAllowsNoSpareBlockThatIsAllThatIsSaid', async () => {
  const charm = JSON.stringify([{kind: 'charm square', width: 5, length: 5, count: 1}]);
  execFileSync(program, ['set', join(room.folder, 'Raffle'), '/prints/0/cloth', charm, '-q']);
  await page.reload();
  await press(page, 'Reckon the cloth');
  await page.getByText(/^No spare block/).waitFor({timeout: 60_000});
  assert.equal(await page.getByText('0', {exact: true}).count(), 0);
});

test('SpareBlocksAreTakenFromTheClothAndOneReplacesABlock', async () => {
  const {prints: all, blocks} = await fileOf(page);
  const yard = JSON.stringify([{kind: 'yardage', width: 40, length: 54, count: 1, lot: '', price: null}]);
  all.forEach((_, k) => execFileSync(program, ['set', join(room.folder, 'Raffle'), `/prints/${k}/cloth`, yard, '-q']));
  await page.reload();
  await press(page, 'Reckon the cloth');
  await press(page, 'Make them part of the quilt');
  await page.getByText(/^Taken: B\d+/).waitFor({timeout: 60_000});
  const more = (await fileOf(page)).blocks.length - blocks.length;
  assert.ok(more >= 2 && more <= 6, `${more}`);
  await go(page, step('Raffle', 'top'));
  const spare = page.locator('[data-block]').first();
  const id = await spare.locator('.code').textContent();
  const out = (await fileOf(page)).layout.cells[2][2];
  await spare.click();
  await page.mouse.click(...(await middle(page, 3, 3)));
  await page.getByText(`${id} lies in R3 C3 now`).waitFor();
  assert.equal((await fileOf(page)).layout.cells[2][2], id);
  await page.locator('[data-block] .code', {hasText: out}).waitFor();
  assert.equal(await page.locator('[data-block]').count(), more);
});

test('NothingWentWrongInThePage', () => assert.deepEqual(page.wrong.filter((words) => !/422/.test(words)), []));

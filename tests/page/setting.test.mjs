// How the blocks are set, said on the page: size, setting, sashes, borders.
import assert from 'node:assert/strict';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {axeFinds, fileOf, launch, leave, makeQuilt, saved, step, visit, Workroom} from './workroom.mjs';

const room = new Workroom();
let browser;
let page;

before(async () => {
  makeQuilt(join(room.folder, 'Raffle'), {size: '36x36', pattern: 'sawtooth-star'});
  await room.serve();
  browser = await launch();
  page = await visit(browser, room, step('Raffle', 'pattern'), {size: 'telephone'});
});
after(() => leave(room, browser));

const type = async (label, words) => {
  await page.getByLabel(label, {exact: true}).fill(words);
  await page.getByLabel(label, {exact: true}).press('Enter');
  await saved(page);
};
const choose = async (label, words) => {
  await page.getByLabel(label, {exact: true}).selectOption({label: words});
  await saved(page);
};
const setting = async () => (await fileOf(page)).setting;

test('BlocksTakeTheSizeThatSheNames', async () => {
  await type('A block, finished width', '6');
  await page.locator('#said').getByText(/^Blocks of 6 in\..* finished now/).waitFor();
  assert.equal((await fileOf(page)).patterns[0].width, 6);
});

test('OnPointEveryPlaceHasABlockAndTheTrianglesAskForAPrint', async () => {
  const on = page.getByRole('button', {name: 'On point', exact: true});
  await on.click();
  await saved(page);
  const file = await fileOf(page);
  assert.equal(file.setting.kind, 'on point');
  assert.ok(file.layout.cells.flat().every((block) => block !== null));
  assert.equal(await on.getAttribute('aria-pressed'), 'true');
  assert.ok(await on.evaluate((one) => one === document.activeElement), 'the focus stays where it was');
  await choose('Print of the setting triangles', 'Gannet');
  assert.ok((await setting()).filler);
});

test('SashesComeWithTheirSquaresAndGo', async () => {
  await type('Sashes between the blocks, finished', '1 1/2');
  await choose('Print of the sashes', 'Slipway');
  await choose('Squares where sashes meet', 'Buoy');
  await page.getByLabel('Around the outside as well').check();
  await saved(page);
  const {sashing} = await setting();
  assert.equal(sashing.width, '1 1/2 in');
  assert.equal(sashing.outer, true);
  assert.ok(sashing.print && sashing.cornerstone && sashing.print !== sashing.cornerstone);
  await type('Sashes between the blocks, finished', '');
  assert.ok(!(await setting()).sashing);
});

test('BordersAreAddedOneAroundAnother', async () => {
  await type('Border, finished', '1');
  await page.getByRole('button', {name: 'Another border around it'}).click();
  await saved(page);
  await type('Outermost border, finished', '10 cm');
  await choose('Its corners', 'A square in each corner');
  await choose('Print of the corner squares', 'Kelp');
  const {borders} = await setting();
  assert.equal(borders.length, 2);
  assert.equal(borders[1].corners, 'cornerstone');
  assert.ok(borders[1].cornerstone);
  await type('Outermost border, finished', '');
  assert.equal((await setting()).borders.length, 1);
});

test('WhatIsNoLengthIsRefusedAndTheFieldSaysAgainWhatIs', async () => {
  await type('Border, finished', 'wide');
  await page.waitForFunction(() => document.getElementById('set-border').value === '1 in');
  assert.deepEqual(page.wrong.filter((one) => !one.includes('422')), []);
});

test('OnATelephoneNothingRunsOffTheSide', async () => {
  assert.ok(await page.evaluate(() => document.documentElement.scrollWidth <= document.documentElement.clientWidth));
  assert.deepEqual((await axeFinds(page)).said, []);
});

test('TwoPatternsTakeTurnsAndOneChosenAgainGoes', async () => {
  const ids = async () => (await fileOf(page)).patterns.map(({id}) => id);
  const press = async (name) => {
    await page.getByRole('button', {name, exact: true}).click();
    await saved(page);
  };
  await press('Two in turn');
  await press('Nine patch');
  assert.deepEqual(await ids(), ['sawtooth-star', 'nine-patch']);
  assert.deepEqual((await setting()).alternate, [['sawtooth-star'], ['nine-patch']], 'on point list by list: none lies against its own');
  await press('Log cabin');
  assert.deepEqual(await ids(), ['sawtooth-star', 'log-cabin'], 'in place of the second');
  await press('Sawtooth star');
  assert.deepEqual(await ids(), ['log-cabin']);
  await press('One pattern');
  await press('Nine patch');
  assert.deepEqual(await ids(), ['nine-patch']);
});

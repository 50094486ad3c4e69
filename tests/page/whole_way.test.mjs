// From the first photograph to the printed plan, doing only what a user can.
import assert from 'node:assert/strict';
import {writeFileSync} from 'node:fs';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {launch, leave, saved, source, visit, Workroom} from './workroom.mjs';

const room = new Workroom();
const kPhotographs = ['01-table.jpg', '02-table.jpg'].map((name) => join(source, 'data/demo/photographs', name));
let browser;
let page;

before(async () => {
  await room.serve();
  browser = await launch();
  page = await visit(browser, room);
});
after(() => leave(room, browser));

const to = (step) => page.getByRole('link', {name: step, exact: true}).click();
const press = (name) => page.getByRole('button', {name, exact: true}).click();

test('AQuiltIsBegun', async () => {
  await press('Begin a quilt');
  await page.getByLabel('Its name').fill('Harbour');
  await press('Begin');
  await page.getByRole('heading', {name: 'Fabrics', exact: true}).waitFor();
});

test('PhotographsComeInAndABadOneDoesNotStopTheOthers', async () => {
  const bad = join(room.folder, 'no photograph.jpg');
  writeFileSync(bad, 'no photograph');
  await page.locator('input[data-from=library]').setInputFiles([bad, ...kPhotographs]);
  await page.waitForFunction(() => document.querySelectorAll('.coming .done').length === 2, null, {timeout: 120_000});
  assert.equal(await page.locator('.coming .failed').count(), 1);
  await page.waitForFunction(() => document.querySelectorAll('.fabric').length >= 6);
});

test('APrintIsNamedAndItsOutlineLaidRight', async () => {
  const first = page.locator('.fabric').first();
  await first.getByLabel('Name').fill('Kelp');
  await first.getByLabel('Name').press('Enter');
  await saved(page);
  await first.locator('summary').click();
  await first.getByRole('button', {name: 'Outline on the photograph'}).click();
  const knob = page.getByRole('button', {name: /^Kelp, top left corner/});
  await knob.focus();
  await knob.press('Shift+ArrowRight');
  await press('Take it so');
  await page.getByText('Cut anew from the photograph.').waitFor({timeout: 60_000});
});

test('ASizeAndAPatternAreChosenInHerOwnFabrics', async () => {
  await to('Pattern and size');
  await page.getByRole('button', {name: 'Three rails'}).click();
  await page.getByRole('button', {name: 'Three rails', pressed: true}).waitFor();
  await page.getByLabel('Rows', {exact: true}).fill('5');
  await page.getByLabel('Rows', {exact: true}).press('Enter');
  await page.getByText(/5 rows of/).waitFor();
});

test('TheBlocksAreArranged', async () => {
  await to('The top');
  await press('Quick');
  await press('Arrange the blocks');
  await page.getByText(/^Arranged with seed /).waitFor({timeout: 60_000});
  await page.getByText(/^(No|\d+) touch/).first().waitFor();
});

test('ThePlanIsPrinted', async () => {
  await to('Sheets');
  await page.getByLabel('Which').selectOption('map');
  await press('Show it');
  const save = page.getByRole('link', {name: 'Save the PDF'});
  await save.waitFor({timeout: 60_000});
  const [download] = await Promise.all([page.waitForEvent('download'), save.click()]);
  const chunks = [];
  for await (const chunk of await download.createReadStream()) chunks.push(chunk);
  assert.equal(Buffer.concat(chunks).subarray(0, 5).toString(), '%PDF-');
});

test('NothingWentWrongOnTheWayButTheBadPhotograph', async () => {
  assert.deepEqual([...page.hosts], [new URL(room.address).host]);
  assert.deepEqual(page.wrong, []);
});

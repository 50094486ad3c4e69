// Her quilts with their pictures; fabrics set right, some of them chosen; lengths in either unit.
import assert from 'node:assert/strict';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {go, launch, leave, makeQuilt, saved, step, visit, Workroom} from './workroom.mjs';

const room = new Workroom();
let browser;
let page;

before(async () => {
  makeQuilt(join(room.folder, 'Raffle'));
  await room.serve();
  browser = await launch();
  page = await visit(browser, room);
});
after(() => leave(room, browser));

const press = (name) => page.getByRole('button', {name, exact: true}).click();
const card = (title) => page.locator('.shelf .quilt', {has: page.getByRole('link', {name: title})});
const file = () => page.evaluate(() => fetch('/quilts/Raffle').then((response) => response.json()).then((whole) => whole.quilt));

test('EachQuiltStandsThereWithItsPictureAndSize', async () => {
  await page.waitForFunction(() => document.querySelector('.shelf img')?.naturalWidth > 100);
  assert.match(await card('Station raffle').textContent(), /45 × 54 in finished, \d+ blocks, 9 prints/);
});

test('APrintIsGivenAnUpAnotherCodeAWayAndAMotif', async () => {
  await go(page, step('Raffle', 'fabrics'));
  const first = page.locator('.fabric').first();
  await first.locator('summary').click();
  await first.getByLabel('It has an up: keep it upright').check();
  await saved(page);
  await first.getByLabel('Code').fill('KE');
  await first.getByLabel('Code').press('Enter');
  await saved(page);
  await first.locator('summary').click();
  await first.getByLabel('Its print runs').selectOption('stripe');
  await page.getByText('Its way is as you say now.').waitFor();
  await first.locator('summary').click();
  await first.getByLabel('Its motif measures').fill('1 1/2');
  await first.getByLabel('Its motif measures').press('Enter');
  await page.getByText('Its motif is as you say now.').waitFor();
  const [print] = (await file()).prints;
  assert.equal(print.upright, true);
  assert.equal(print.code, 'KE');
  assert.deepEqual([print.features.direction.kind, print.features.scale], ['stripe', 1.5]);
  assert.ok(['direction', 'scale'].every((key) => print.features.by_hand.includes(key)));
});

test('ThePrintsThatGoBestTogetherAreChosenAndUsed', async () => {
  await go(page, step('Raffle', 'choose'));
  await page.getByRole('button', {name: /Buoy/}).click();
  await page.getByRole('button', {name: /Buoy.*In any case/}).waitFor();
  await page.getByLabel('How many of the 9').fill('5');
  await press('Choose for me');
  await page.getByRole('heading', {name: 'These go best together'}).waitFor({timeout: 120_000});
  await press('Use these');
  await page.waitForURL(/#\/quilts\/Raffle\/top$/);
  const {prints, blocks} = await file();
  const used = new Set(blocks.flatMap((block) => Object.values(block.prints)));
  assert.equal(used.size, 5);
  assert.ok(used.has(prints.find((print) => print.name === 'Buoy').id));
});

test('LengthsAreShownInCentimetresWithoutChangingWhatIsStored', async () => {
  await go(page, step('Raffle', 'pattern'));
  const before = await file();
  await press('Centimetres');
  await page.getByText(/\d+\.\d cm × \d+\.\d cm/).waitFor();
  assert.deepEqual(await file(), before);
  await press('Inches');
  await page.getByText(/\d+ in × \d+ in/).waitFor();
});

test('NothingWentWrongInThePage', () => assert.deepEqual(page.wrong, []));

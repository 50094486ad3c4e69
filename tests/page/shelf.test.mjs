// Her quilts with their pictures; fabrics set right, some of them chosen; lengths in either unit.
import assert from 'node:assert/strict';
import {mkdirSync, rmSync, writeFileSync} from 'node:fs';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {deflateSync} from 'node:zlib';
import {cell, fileOf, go, launch, leave, makeQuilt, press, saved, step, visit, Workroom} from './workroom.mjs';

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

const card = (title) => page.locator('.shelf .quilt', {has: page.getByRole('link', {name: title})});
const open = (title) => card(title).locator('summary').click();

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
  await first.getByLabel('Its print runs').selectOption('stripe');
  await page.getByText('Its way is as you say now.').waitFor();
  await first.getByLabel('Its motif measures').fill('1 1/2');
  await first.getByLabel('Its motif measures').press('Enter');
  await page.getByText('Its motif is as you say now.').waitFor();
  const [print] = (await fileOf(page)).prints;
  assert.equal(print.upright, true);
  assert.equal(print.code, 'KE');
  assert.deepEqual([print.features.direction.kind, print.features.scale], ['stripe', 1.5]);
  assert.ok(['direction', 'scale'].every((key) => print.features.by_hand.includes(key)));
});

test('WhatIsSetRightStaysOpenAndTheKeysGoOnFromThere', async () => {
  await go(page, step('Raffle', 'fabrics'));
  const second = page.locator('.fabric').nth(1);
  await second.locator('summary').focus();
  await page.keyboard.press('Enter');
  await second.getByLabel('It has an up: keep it upright').focus();
  await page.keyboard.press('Space');
  await saved(page);
  await page.waitForFunction(() => document.querySelectorAll('.fabric')[1].querySelector('input[type=checkbox]').checked);
  assert.ok(await second.getByLabel('Its print runs').isVisible());
  await page.waitForFunction(() => document.activeElement.type === 'checkbox');
});

test('WhatIsWrongIsSaidInSentences', async () => {
  const broken = join(room.folder, 'Torn');
  mkdirSync(broken);
  writeFileSync(join(broken, 'quilt.json'), '{"format": "farflung-quilt", "version": 1, "title": 3}');
  const other = await visit(browser, room);
  await other.getByText('Its file cannot be read. quilt.json, /title: is the number 3, must be a text: what the quilt is called.').waitFor();
  await other.evaluate(() => (location.hash = '#/quilts/Nowhere/top'));
  await other.getByText('There is no quilt of that name.', {exact: true}).waitFor();
  await other.evaluate(() => (location.hash = '#/quilts/%/top'));
  await other.getByRole('heading', {name: '% could not be opened'}).waitFor();
  await other.getByRole('link', {name: 'To your quilts'}).click();
  await other.getByRole('heading', {name: 'Your quilts'}).waitFor();
  await other.context().close();
  rmSync(broken, {recursive: true});
});

test('ThePrintsThatGoBestTogetherAreChosenAndUsed', async () => {
  await go(page, step('Raffle', 'choose'));
  await page.getByRole('button', {name: /Buoy/}).click();
  await page.getByRole('button', {name: /Buoy.*In any case/}).waitFor();
  await page.getByLabel('How many of the 9').fill('5');
  await press(page, 'Choose for me');
  await page.getByRole('heading', {name: 'These go best together'}).waitFor({timeout: 120_000});
  const second = page.locator('.card', {hasText: 'Also good, 2'});
  const exchanged = await second.locator('.exchange figure').count();
  assert.ok(exchanged > 0 && exchanged < 10 && exchanged % 2 === 0, `${exchanged} prints, as many come as go`);
  await second.locator('summary', {hasText: 'All 5'}).click();
  assert.equal(await second.locator('details figure').count(), 5);
  for (const why of await page.locator('.why li').allTextContents()) assert.match(why, /^[A-Z0-9]/);
  await press(page, 'Use these');
  await page.waitForURL(/#\/quilts\/Raffle\/top$/);
  const {prints, blocks} = await fileOf(page);
  const used = new Set(blocks.flatMap((block) => Object.values(block.prints)));
  assert.equal(used.size, 5);
  assert.ok(used.has(prints.find((print) => print.name === 'Buoy').id));
});

test('LengthsAreShownInCentimetresWithoutChangingWhatIsStored', async () => {
  await go(page, step('Raffle', 'pattern'));
  const before = await fileOf(page);
  await press(page, 'Centimetres');
  await page.getByText(/\d+\.\d cm × \d+\.\d cm/).waitFor();
  assert.deepEqual(await fileOf(page), before);
  await press(page, 'Inches');
  await page.getByText(/\d+ in × \d+ in/).waitFor();
});

test('AFinishedTopIsSaidToTheEighthOrTheMillimetre', async () => {
  const says = (inches, units) => page.evaluate(async (asked) => (await import('./lengths.js')).nearlySays(...asked), [inches, units]);
  assert.equal(await says(69.569, 'in'), '69 5/8 in');
  assert.equal(await says(72.441, 'cm'), '184 cm');
});

test('AQuiltIsCopiedUnderANameOfItsOwn', async () => {
  await go(page, '#/');
  await open('Station raffle');
  await card('Station raffle').getByRole('button', {name: 'Copy', exact: true}).click();
  await page.getByLabel('Name', {exact: true}).fill('For the school');
  await press(page, 'Copy it');
  await page.getByText('Copied to For the school.').waitFor();
  await card('For the school').waitFor();
  assert.equal(await page.locator('.shelf .quilt').count(), 2);
});

test('ARenameIsSeenAndTheDialogueCanBeLeft', async () => {
  await open('For the school');
  await card('For the school').getByRole('button', {name: 'Rename', exact: true}).click();
  await press(page, 'Leave it');
  await card('For the school').getByRole('button', {name: 'Rename', exact: true}).click();
  await page.keyboard.press('Escape');
  await page.getByRole('dialog').waitFor({state: 'detached'});
  await card('For the school').getByRole('button', {name: 'Rename', exact: true}).click();
  assert.equal(await page.getByLabel('Name', {exact: true}).inputValue(), 'For the school');
  await page.getByLabel('Name', {exact: true}).fill('Möwe & <b>Kelp');
  await page.getByLabel('Name', {exact: true}).press('Enter');
  await page.getByText('It is called Möwe & <b>Kelp now.').waitFor();
  await card('Möwe & <b>Kelp').waitFor();
  assert.equal(await page.getByRole('heading', {name: 'For the school'}).count(), 0);
});

test('AQuiltPackedToOneFileIsBroughtInOnAnotherMachine', async () => {
  await open('Station raffle');
  const [download] = await Promise.all([page.waitForEvent('download'),
    card('Station raffle').getByRole('link', {name: 'Pack to one file'}).click()]);
  const carried = join(room.folder, download.suggestedFilename());
  await download.saveAs(carried);
  const other = new Workroom();
  await other.serve();
  const there = await visit(browser, other);
  await there.locator('input[type=file]').setInputFiles(carried);
  await there.getByText('is unpacked').waitFor();
  await there.getByRole('link', {name: 'Station raffle'}).click();
  await cell(there, 1, 1).waitFor({state: 'attached'});
  const read = (on) => on.evaluate(() => fetch('/quilts/Raffle').then((response) => response.json()).then(({quilt, undo}) => ({quilt, undo})));
  assert.deepEqual(await read(there), await read(page));
  assert.deepEqual(there.wrong, []);
  await there.context().close();
  await other.close();
});

test('AQuiltLaidAsideIsTakenUpAgain', async () => {
  const name = 'Möwe & <b>Kelp';
  await open(name);
  await card(name).getByRole('button', {name: 'Lay aside', exact: true}).click();
  await press(page, 'Lay it aside');
  await page.getByText(`${name} is laid aside.`).waitFor();
  assert.equal(await page.locator('.shelf .quilt').count(), 1);
  await press(page, 'Take it up again');
  await card(name).waitFor();
});

test('APrintIsTakenOutAndUndoBringsItBack', async () => {
  await go(page, step('Raffle', 'fabrics'));
  const before = await fileOf(page);
  const first = page.locator('.fabric').first();
  await first.locator('summary').click();
  await first.getByRole('button', {name: 'Take it out of the quilt'}).click();
  await page.getByText(/is out\. Its blocks are dealt anew/).waitFor();
  assert.equal(await page.locator('.fabric').count(), before.prints.length - 1);
  assert.ok((await fileOf(page)).prints.every((print) => print.id !== before.prints[0].id));
  await go(page, step('Raffle', 'top'));
  await page.locator('.verdict').waitFor();
  await press(page, 'Undo');
  await saved(page);
  assert.deepEqual((await fileOf(page)).prints, before.prints);
});

test('ClothInHandIsTyped', async () => {
  await go(page, step('Raffle', 'fabrics'));
  const first = page.locator('.fabric').first();
  const type = async (label, words) => {
    if (!await first.getByLabel(label).isVisible()) await first.locator('summary').click();
    await first.getByLabel(label).fill(words);
    await first.getByLabel(label).press('Enter');
    await saved(page);
  };
  const cloth = async () => (await fileOf(page)).prints[0].cloth ?? [];
  await type('Fat quarters in hand', '2');
  await type('Off the bolt in hand, so long', '1 1/2');
  assert.deepEqual((await cloth()).map(({kind, length, count}) => [kind, length, count]),
      [['fat quarter', '17 1/2 in', 2], ['yardage', '1 1/2 yd', 1]]);
  await first.getByLabel('Another kind in hand').selectOption({label: 'Another length off the bolt'});
  await type('Another length off the bolt', '3/4');
  assert.deepEqual((await cloth()).map(({length}) => length), ['17 1/2 in', '1 1/2 yd', '3/4 yd']);
  await first.getByRole('button', {name: 'Used up'}).click();
  await saved(page);
  await type('Fat quarters in hand', '');
  await type('Off the bolt in hand, so long', '');
  assert.deepEqual(await cloth(), []);
});

test('PrintsThatAreShortOfClothAreNamed', async () => {
  await go(page, step('Raffle', 'fabrics'));
  const {blocks, prints} = await fileOf(page);
  const {id, name} = prints.find((print) => blocks.some((block) => Object.values(block.prints).includes(print.id)));
  const card = page.locator(`.fabric[data-print="${id}"]`);
  const all = page.getByText(`The cloth in hand is not enough for ${name}: “Reckon the cloth” under Sheets says what is missing.`);
  assert.equal(await all.count(), 0, 'no cloth is recorded');
  await card.locator('summary').click();
  await card.getByLabel('Another kind in hand').selectOption({label: 'Charm squares'});
  const charms = async (count) => {
    await card.getByLabel('Charm squares in hand').fill(count);
    await card.getByLabel('Charm squares in hand').press('Enter');
    await saved(page);
  };
  await charms('1');
  await all.waitFor();
  assert.equal(await card.getByText('Its cloth in hand is not enough.').count(), 1);
  assert.equal(await page.getByText('Its cloth in hand is not enough.').count(), 1);
  await charms('');
  await card.getByText('Its cloth in hand is not enough.').waitFor({state: 'detached'});
  assert.equal(await all.count(), 0);
  await card.locator('summary').click();
});

test('ClothOfEveryKindIsTaken', async () => {
  await go(page, step('Raffle', 'fabrics'));
  const first = page.locator('.fabric').first();
  const another = first.getByLabel('Another kind in hand');
  if (!await another.isVisible()) await first.locator('summary').click();
  const kinds = (await another.locator('option').allTextContents()).slice(1);
  assert.ok(kinds.includes('Charm squares') && kinds.includes('2 1/2 in strips'));
  const type = async (label, words) => {
    await first.getByLabel(label).fill(words);
    await first.getByLabel(label).press('Enter');
    await saved(page);
  };
  await another.selectOption({label: 'Charm squares'});
  await type('Charm squares in hand', '6');
  await another.selectOption({label: '2 1/2 in strips'});
  await type('2 1/2 in strips in hand', '3');
  await type('Charm squares in hand', '7');
  await another.selectOption({label: 'A piece of another size'});
  await type('A piece so wide and long', '12 x 20 1/2');
  const cloth = async () => (await fileOf(page)).prints[0].cloth ?? [];
  assert.deepEqual((await cloth()).map(({kind, width, length, count}) => [kind, width, length, count]),
      [['charm square', '5 in', '5 in', 7], ['2 1/2 in strip', '40 in', '2 1/2 in', 3], ['scrap', '12 in', '20 1/2 in', 1]]);
  await first.getByRole('button', {name: 'Used up'}).click();
  await saved(page);
  await type('2 1/2 in strips in hand', '');
  await type('Charm squares in hand', '');
  assert.deepEqual(await cloth(), []);
});

test('ClothOfAMetricQuiltIsCountedAsAMetricShopSellsIt', async () => {
  await page.evaluate(() => localStorage.setItem('lengths', 'cm'));
  await go(page, '#/');
  await go(page, step('Raffle', 'fabrics'));
  const first = page.locator('.fabric').first();
  await first.locator('summary').click();
  await first.getByLabel('Off the bolt in hand, so long').fill('0,5');
  await first.getByLabel('Off the bolt in hand, so long').press('Enter');
  await saved(page);
  const [bolt] = (await fileOf(page)).prints[0].cloth;
  assert.deepEqual([bolt.kind, bolt.width, bolt.length, bolt.count], ['yardage', '100 cm', '0,5 m', 1]);
  await first.getByLabel('Fat quarters in hand').fill('2');
  await first.getByLabel('Fat quarters in hand').press('Enter');
  await saved(page);
  const quarter = (await fileOf(page)).prints[0].cloth.find(({kind}) => kind === 'fat quarter');
  assert.deepEqual([quarter.width, quarter.length, quarter.count], ['50 cm', '48.5 cm', 2]);
  await first.getByLabel('Fat quarters in hand').fill('');
  await first.getByLabel('Fat quarters in hand').press('Enter');
  await saved(page);
  await page.evaluate(() => localStorage.removeItem('lengths'));
  await first.getByLabel('Off the bolt in hand, so long').fill('');
  await first.getByLabel('Off the bolt in hand, so long').press('Enter');
  await saved(page);
});

test('AFabricWithoutAPhotographIsTypedAsAColour', async () => {
  await go(page, step('Raffle', 'fabrics'));
  await press(page, 'No photograph: a colour');
  await page.getByLabel('Its name').fill('Harbour wall');
  await page.getByLabel('Its colour').fill('#808890');
  await press(page, 'Take it in');
  await page.getByText('Harbour wall is among the fabrics.').waitFor();
  const print = (await fileOf(page)).prints.at(-1);
  assert.equal(print.name, 'Harbour wall');
  assert.ok(Math.abs(print.features.lab[0] - 56) < 2, `L* ${print.features.lab[0]}`);
  assert.equal(await page.locator('.banner').count(), 0);
});

test('WhatWasAskedIsShutWhenOneGoesElsewhere', async () => {
  await go(page, '#/');
  await press(page, 'Begin a quilt');
  await page.getByLabel('Its name').waitFor();
  await go(page, '#/guide');
  assert.equal(await page.locator('dialog').count(), 0);
});

/** A picture of one colour, as PNG. */
function plainPicture(side, rgb) {
  const chunk = (kind, data) => {
    const body = Buffer.concat([Buffer.from(kind), data]);
    const [length, check] = [Buffer.alloc(4), Buffer.alloc(4)];
    length.writeUInt32BE(data.length);
    check.writeUInt32BE(crc32(body));
    return Buffer.concat([length, body, check]);
  };
  const head = Buffer.alloc(13);
  head.writeUInt32BE(side, 0);
  head.writeUInt32BE(side, 4);
  head.set([8, 2, 0, 0, 0], 8);
  const row = Buffer.from([0, ...Array.from({length: side}, () => rgb).flat()]);
  const pixels = deflateSync(Buffer.concat(Array.from({length: side}, () => row)));
  return Buffer.concat([Buffer.from([137, 80, 78, 71, 13, 10, 26, 10]), chunk('IHDR', head), chunk('IDAT', pixels), chunk('IEND', Buffer.alloc(0))]);
}

/** As PNG checks its chunks. */
function crc32(bytes) {
  let sum = 0xffffffff;
  for (const byte of bytes) {
    sum ^= byte;
    for (let k = 0; k < 8; ++k) sum = sum & 1 ? (sum >>> 1) ^ 0xedb88320 : sum >>> 1;
  }
  return (sum ^ 0xffffffff) >>> 0;
}

test('PlainWhiteClothThatFillsThePhotographComesInWhereSheSaysSo', async () => {
  await go(page, step('Raffle', 'fabrics'));
  const prints = (await fileOf(page)).prints.length;
  const white = {name: 'white.png', mimeType: 'image/png', buffer: plainPicture(300, [238, 237, 233])};
  const library = page.locator('input[data-from=library]');
  await library.setInputFiles(white);
  const refused = page.locator('.coming li.failed').last();
  await refused.waitFor({timeout: 60_000});
  assert.match(await refused.textContent(), /say that it fills the frame/);
  assert.doesNotMatch(await refused.textContent(), /--/);
  await page.getByLabel('The cloth fills the frame of each photograph').check();
  await library.setInputFiles(white);
  await page.locator('.coming li.done').last().waitFor({timeout: 60_000});
  assert.equal((await fileOf(page)).prints.length, prints + 1);
});

test('NothingWentWrongInThePage', () => assert.deepEqual(page.wrong, []));

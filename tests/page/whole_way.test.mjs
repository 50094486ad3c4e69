// From the first photograph to the printed plan, doing only what a user can.
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {writeFileSync} from 'node:fs';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {holds, isGoodDialogue, launch, leave, middle, press, saved, source, visit, Workroom} from './workroom.mjs';

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

test('AQuiltIsBegun', async () => {
  await press(page, 'Begin a quilt');
  await page.getByLabel('Its name').fill('Harbour');
  await press(page, 'Begin');
  await page.getByRole('heading', {name: 'Fabrics', exact: true}).waitFor();
});

test('PhotographsComeInAndABadOneDoesNotStopTheOthers', async () => {
  const bad = join(room.folder, 'no photograph.jpg');
  writeFileSync(bad, 'no photograph');
  const [chooser] = await Promise.all([page.waitForEvent('filechooser'), press(page, 'Choose photographs')]);
  await chooser.setFiles([bad, ...kPhotographs]);
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
  const outline = first.getByRole('button', {name: 'Outline on the photograph'});
  await isGoodDialogue(page, outline);
  await outline.click();
  const knob = page.getByRole('button', {name: /^Kelp, top left corner/});
  await knob.focus();
  await knob.press('Shift+ArrowRight');
  const there = () => knob.boundingBox().then(({x, y, width, height}) => [x + width / 2, y + height / 2]);
  const [x, y] = await there();
  await page.mouse.move(x - 12, y - 14);  // beside it: what is drawn is smaller than what takes hold
  await page.mouse.down();
  await page.mouse.move(x - 6, y - 10);
  await page.mouse.up();
  const [toX, toY] = await there();
  assert.ok(Math.abs(toX - x - 6) < 0.6 && Math.abs(toY - y - 4) < 0.6, `by ${toX - x}, ${toY - y}`);
  await press(page, 'Take it so');
  await page.getByText('Cut anew from the photograph.').waitFor({timeout: 60_000});
});

test('OnATelephoneThePhotographIsBroughtNearerToLayACornerFinely', async () => {
  const desktop = page.viewportSize();
  await page.setViewportSize({width: 390, height: 640});
  const outline = page.locator('.fabric').first().getByRole('button', {name: 'Outline on the photograph'});
  await isGoodDialogue(page, outline, async (box) => {
    const frame = box.locator('.frame');
    const knob = box.getByRole('button', {name: /, bottom right corner/});
    const nearer = box.getByRole('button', {name: 'Nearer'});
    const there = () => knob.boundingBox().then(({x, y, width, height}) => [x + width / 2, y + height / 2, width]);
    const cloth = () => box.locator('polygon').evaluate((one) => one.getBoundingClientRect().width);
    const step = async (key) => {
      const before = await there();
      await knob.press(key);
      const after = await there();
      return after[0] - before[0];
    };
    const small = await cloth();
    const farther = box.getByRole('button', {name: 'Farther'});
    for (let k = 0; k < 3; ++k) await nearer.click();
    let seen = await frame.boundingBox();
    const corners = await Promise.all((await box.locator('.knob').all()).map((one) => one.boundingBox()));
    assert.ok(corners.some(({x, y, width, height}) => x > seen.x && y > seen.y && x + width < seen.x + seen.width && y + height < seen.y + seen.height),
        'a corner is in sight, however near');
    for (let k = 0; k < 3; ++k) await farther.click();
    await knob.focus();
    const coarse = await step('ArrowLeft');
    await nearer.click();
    await nearer.click();
    assert.ok(Math.abs(await cloth() / small - 4) < 0.2, `${small} px became ${await cloth()}`);
    const [x, y, width] = await there();
    assert.equal(width, 44);
    seen = await frame.boundingBox();
    assert.ok(x > seen.x && x < seen.x + seen.width && y > seen.y && y < seen.y + seen.height, 'the corner laid last is in the frame');
    assert.ok(Math.abs(await step('ArrowLeft') - coarse) < 0.1, 'an arrow is the same step on the screen, a quarter of it on the cloth');
    const [fromX, fromY] = await there();
    await page.mouse.move(fromX + 3, fromY - 2);
    await page.mouse.down();
    await page.mouse.move(fromX - 17, fromY - 12);
    await page.mouse.up();
    const [toX, toY] = await there();
    assert.ok(Math.abs(toX - fromX + 20) < 0.6 && Math.abs(toY - fromY + 10) < 0.6, `by ${toX - fromX}, ${toY - fromY}`);
    await frame.evaluate((one) => one.scrollTo(0, 0));
    assert.deepEqual(await frame.evaluate((one) => [one.scrollLeft, one.scrollTop]), [0, 0]);
    await nearer.click();
    await knob.focus();
    for (let k = 0; k < 3; ++k) await farther.press('Enter');
    assert.ok(await farther.isDisabled() && await nearer.evaluate((one) => one === document.activeElement), 'the focus goes where it can go on');
    assert.ok(Math.abs(await cloth() - small) < small / 4);
    assert.ok(await frame.evaluate((one) => one.scrollWidth <= one.clientWidth && one.scrollHeight <= one.clientHeight), 'all of it fits again');
  });
  await page.setViewportSize(desktop);
});

test('ASizeAndAPatternAreChosenInHerOwnFabrics', async () => {
  await to('Pattern and size');
  await page.getByRole('button', {name: 'Three rails'}).click();
  await page.getByRole('button', {name: 'Three rails', pressed: true}).waitFor();
  await page.getByLabel('Rows', {exact: true}).fill('5');
  await page.getByLabel('Rows', {exact: true}).press('Enter');
  await page.locator('.page').getByText(/5 rows of/).waitFor();
  await page.locator('#said').getByText(/5 rows of .* The top is .* finished now/).waitFor();
});

test('ThePrintsThatGoBestTogetherAreTaken', async () => {
  await to('Choose');
  await page.getByRole('button', {name: /Kelp/}).click();
  await page.getByLabel(/^How many of the \d+/).fill('5');
  await press(page, 'Choose for me');
  await page.getByRole('heading', {name: 'These go best together'}).waitFor({timeout: 120_000});
  await press(page, 'Use these');
  await page.getByRole('heading', {name: 'How it lies'}).waitFor();
});

test('TheBlocksAreArranged', async () => {
  await to('The top');
  await press(page, 'Quick');
  await press(page, 'Arrange the blocks');
  await page.getByText(/^Arranged with seed /).waitFor({timeout: 60_000});
  await page.locator('.verdict', {hasText: /touch/}).waitFor();
});

test('TwoBlocksAreSwappedByHand', async () => {
  const before = [await holds(page, 1, 1), await holds(page, 3, 2)];
  await page.mouse.click(...(await middle(page, 1, 1)));
  await page.mouse.click(...(await middle(page, 3, 2)));
  await page.getByText('R1 C1 and R3 C2 have changed places.').waitFor();
  assert.deepEqual([await holds(page, 3, 2), await holds(page, 1, 1)], before);
});

test('ThePlanIsPrintedWhole', async () => {
  await to('Sheets');
  await press(page, 'Show it');
  const save = page.getByRole('link', {name: 'Save the PDF'});
  await save.waitFor({timeout: 120_000});
  const [download] = await Promise.all([page.waitForEvent('download'), save.click()]);
  const saved = join(room.folder, 'plan.pdf');
  await download.saveAs(saved);
  const words = execFileSync('pdftotext', ['-layout', saved, '-']).toString();
  for (const expected of ['Harbour', 'Kelp', 'Three rails', 'rotary cutter']) assert.ok(words.toLowerCase().includes(expected.toLowerCase()), expected);
  assert.ok(words.split('\f').length > 8, 'every sheet is there');
});

test('NothingWentWrongOnTheWayButTheBadPhotograph', async () => {
  assert.deepEqual([...page.hosts], [new URL(room.address).host]);
  assert.deepEqual(page.wrong, []);
});

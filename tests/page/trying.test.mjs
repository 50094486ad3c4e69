// Layouts beside each other, casts, one tap swaps, parts tried in place, a pattern of her own, a print lit up.
import assert from 'node:assert/strict';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {atTheTop, cell, fileOf, go, holds, leave, middle, press, saved, source, step, Workroom} from './workroom.mjs';

const room = new Workroom();
let browser;
let page;

before(async () => ({browser, page} = await atTheTop(room, 'Raffle')));
after(() => leave(room, browser));

const open = async (name) => {
  const panel = page.locator('details.panel', {has: page.getByRole('heading', {name})});
  if (await panel.getAttribute('open') === null) await panel.locator('summary').click();
};

async function swap(a, b) {
  await page.mouse.click(...(await middle(page, ...a)));
  await page.mouse.click(...(await middle(page, ...b)));
  await saved(page);
}

test('LayoutsAreKeptDrawnSideBySideAndLaidAgain', async () => {
  await open('Layouts kept');
  await page.getByLabel('Keep this layout as').fill('First try');
  await press(page, 'Keep it');
  await page.getByText('Kept as First try.').waitFor();
  const before = await holds(page, 1, 1);
  await swap([1, 1], [3, 2]);
  await press(page, 'See them side by side');
  const figures = page.getByRole('dialog').locator('figure');
  assert.equal(await figures.count(), 2);
  await page.waitForFunction(() => [...document.querySelectorAll('dialog figure img')].every((one) => one.complete && one.naturalWidth > 100));
  await page.getByText('Lies best of these.').waitFor();
  await press(page, 'Done');
  await press(page, 'Lay it so');
  await page.getByText('Laid as First try.').waitFor();
  assert.equal(await holds(page, 1, 1), before);
  await press(page, 'Forget First try');
  await page.getByText('First try is forgotten.').waitFor();
});

test('CastsShowHowRegionsLeanInColourAndInWords', async () => {
  await press(page, 'Casts');
  await page.getByText(/Each region in its own colour, stretched\. Around R\d+ ?C\d+ it is (lighter|darker|redder|greener|yellower|bluer) than the whole/).waitFor();
  for (const [row, column] of [[1, 1], [2, 2], [3, 3], [4, 2]]) {
    await cell(page, row, column).focus();
    await page.keyboard.press('Enter');
    await page.getByText(new RegExp(`R${row} ?C${column}: .*The region around it (is \\w+ than the whole, (0\\.[1-9]|[1-9])|leans no way that could be seen)`)).waitFor();
    await page.keyboard.press('Escape');
  }
  await press(page, 'Cloth');
  await page.getByText('Tap a block, then tap another').waitFor();
});

test('ThreeSwapsThatWouldHelpAreOneTapEach', async () => {
  for (const [a, b] of [[[1, 1], [1, 3]], [[2, 2], [4, 1]], [[3, 3], [5, 4]]]) await swap(a, b);
  await press(page, 'Find three swaps');
  const first = page.locator('.helps button').first();
  await first.waitFor();
  assert.ok(await page.locator('.helps button').count() <= 3);
  const before = await page.evaluate(() => document.querySelector('.standing').textContent);
  await first.click();
  await page.locator('.helps .done').waitFor();
  await page.waitForFunction((was) => document.querySelector('.standing').textContent !== was, before);
});

test('APrintIsLitUpWithItsClosestTwoCopies', async () => {
  await page.locator('.prints .chip', {hasText: 'Kelp'}).click();
  await page.getByText(/^Kelp: \d+ copies\. The closest two, R\d+ ?C\d+ and R\d+ ?C\d+, lie \d/).waitFor();
  await page.locator('.prints .chip[aria-pressed=true]', {hasText: 'Kelp'}).click();
});

test('ABorderThatIsNotThereYetIsTriedDrawnUsedAndUndone', async () => {
  await open('Border, binding, thread');
  assert.equal((await fileOf(page)).setting.borders, undefined);
  await press(page, 'Try the fabrics');
  await page.waitForFunction(() => document.querySelector('.sampler')?.naturalWidth > 100, null, {timeout: 60_000});
  for (const reason of await page.locator('.ranked .hint').allTextContents()) assert.match(reason, /^[A-Z0-9]/);
  await page.getByRole('button', {name: /^Use /}).first().click();
  await page.getByText('is in its place').waitFor();
  assert.equal((await fileOf(page)).setting.borders.length, 1);
  await press(page, 'Undo');
  await page.getByText('Undone.').waitFor();
  assert.equal((await fileOf(page)).setting.borders, undefined);
});

test('ThreadsAreTriedOnTheTopAndNamed', async () => {
  await page.getByLabel('Part').selectOption('thread');
  await page.getByLabel('Quilted in').selectOption('waves');
  await press(page, 'Try the fabrics');
  await page.getByRole('heading', {name: 'On the top'}).waitFor({timeout: 60_000});
  assert.ok(await page.locator('.tried .ranked li').count() >= 3);
  await page.getByText(/of thread on the top/).waitFor();
});

test('AFabricOfElsewhereIsTriedFromItsPhotographAndBroughtIn', async () => {
  await page.getByLabel('Part').selectOption('binding');
  const before = (await fileOf(page)).prints.length;
  await page.locator('input[data-from=others]').setInputFiles(join(source, 'data/demo/photographs/04-shingle.jpg'));
  await page.locator('.tried .ranked li').first().waitFor({timeout: 60_000});
  assert.equal((await fileOf(page)).prints.length, before, 'it stays out');
  await press(page, 'Bring this photograph’s fabrics in');
  await page.getByRole('button', {name: /^Use /}).first().waitFor({timeout: 60_000});
  assert.equal((await fileOf(page)).prints.length, before + 1);
  await page.getByRole('button', {name: /^Use /}).first().click();
  await page.getByText('is in its place').waitFor();
  assert.match((await fileOf(page)).binding.print, /^P/);
});

test('APatternOfHerOwnIsDrawnOnAGridAndSewn', async () => {
  await go(page, step('Raffle', 'pattern'));
  await page.getByText('A pattern of your own').click();
  await page.getByRole('group', {name: 'Squares across'}).getByRole('button', {name: '2'}).click();
  const square = (row, column) => page.getByRole('button', {name: new RegExp(`^Square ${row}, ${column}:`)});
  await page.getByRole('group', {name: 'Print'}).getByRole('button', {name: 'B'}).click();
  await square(1, 1).click();
  await page.getByRole('button', {name: 'Halved ╲'}).click();
  await page.getByRole('group', {name: 'Other half'}).getByRole('button', {name: 'C'}).click();
  await square(2, 2).click();
  await page.getByLabel('Its name').fill('Slip');
  await press(page, 'Use this pattern');
  await page.getByText('Slip it is.').waitFor();
  const [pattern] = (await fileOf(page)).patterns;
  assert.equal(pattern.name, 'Slip');
  assert.equal(pattern.patches.length, 5);
  assert.equal(pattern.piecing.length, 4);
  await page.getByRole('heading', {name: 'Pattern and size'}).waitFor();
});

test('SizesAreReckonedWithTheClothTheyNeedAndOneIsTaken', async () => {
  await press(page, 'Reckon the sizes');
  await page.locator('.size-list li').first().waitFor({timeout: 60_000});
  assert.match(await page.locator('.size-list li').first().textContent(), /blocks/);
  await page.getByRole('button', {name: /^Make it /}).first().click();
  await page.getByText(/The top is .* finished now\..*Undo brings it back as it was\./).waitFor();
});

test('NothingWentWrongInThePage', () => assert.deepEqual(page.wrong, []));

// What hands and keys do to the top.
import assert from 'node:assert/strict';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {atTheTop, cell, go, holds, leave, makeQuilt, middle, saved, sizes, step, Workroom} from './workroom.mjs';

const room = new Workroom();
let browser;
let page;

before(async () => ({browser, page} = await atTheTop(room, 'Raffle')));
after(() => leave(room, browser));

const pair = async () => [await holds(page, 1, 1), await holds(page, 3, 2)];

test('TwoTapsSwapTwoBlocksAndUndoAndRedoWalk', async () => {
  const [a, b] = await pair();
  await page.mouse.click(...(await middle(page, 1, 1)));
  await page.mouse.click(...(await middle(page, 3, 2)));
  await saved(page);
  assert.deepEqual(await pair(), [b, a]);
  await page.getByRole('button', {name: 'Undo'}).click();
  await page.waitForFunction((was) => document.querySelector('[data-cell="0"]').getAttribute('aria-label').endsWith(was), a);
  assert.deepEqual(await pair(), [a, b]);
  await page.keyboard.press('Control+Shift+Z');
  await page.waitForFunction((was) => document.querySelector('[data-cell="0"]').getAttribute('aria-label').endsWith(was), b);
  await page.keyboard.press('Control+z');
  await page.waitForFunction((was) => document.querySelector('[data-cell="0"]').getAttribute('aria-label').endsWith(was), a);
});

test('DraggingSwapsAndAReleaseOutsideOrEscapeChangesNothing', async () => {
  const [a, b] = await pair();
  const [x, y] = await middle(page, 1, 1);
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 30, y + 30, {steps: 4});
  await page.mouse.move(6, 200, {steps: 4});
  await page.mouse.up();
  assert.deepEqual(await pair(), [a, b]);

  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(...(await middle(page, 3, 2)), {steps: 6});
  await page.keyboard.press('Escape');
  await page.mouse.up();
  assert.deepEqual(await pair(), [a, b]);

  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(...(await middle(page, 3, 2)), {steps: 6});
  await page.mouse.up();
  await saved(page);
  assert.deepEqual(await pair(), [b, a]);
});

test('ArrowsAndEnterSwapAndEscapeLetsGo', async () => {
  const [a, right] = [await holds(page, 2, 1), await holds(page, 2, 2)];
  await cell(page, 1, 1).focus();
  await page.keyboard.press('ArrowDown');
  await page.getByText(/^Arrows move, Enter takes a block/).waitFor();
  await page.keyboard.press('Enter');
  assert.equal(await cell(page, 2, 1).getAttribute('aria-selected'), 'true');
  await page.keyboard.press('Escape');
  assert.equal(await cell(page, 2, 1).getAttribute('aria-selected'), 'false');
  await page.keyboard.press('Enter');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  await saved(page);
  assert.deepEqual([await holds(page, 2, 1), await holds(page, 2, 2)], [right, a]);
});

test('ThatABlockIsInHandIsSaidNoLongerThanItIs', async () => {
  const inHand = page.getByText('R2 C2 in hand. Tap another to swap them.');
  for (const puttingDown of [() => page.keyboard.press('Escape'), () => go(page, step('Raffle', 'sheets'))]) {
    await page.mouse.click(...(await middle(page, 2, 2)));
    await inHand.waitFor();
    await puttingDown();
    await inHand.waitFor({state: 'detached', timeout: 2000});
  }
  await go(page, step('Raffle', 'top'));
  await cell(page, 1, 1).waitFor({state: 'attached'});
});

test('AKeptBlockStaysAndIsSaidToBeKept', async () => {
  await cell(page, 1, 2).focus();
  await page.keyboard.press('k');
  await saved(page);
  assert.match(await holds(page, 1, 2), /kept$/);
  const before = await holds(page, 2, 2);
  await page.mouse.click(...(await middle(page, 1, 2)));
  await page.mouse.click(...(await middle(page, 2, 2)));
  await saved(page);
  assert.equal(await holds(page, 2, 2), before);
  await cell(page, 1, 2).focus();
  await page.keyboard.press('k');
  await saved(page);
  assert.doesNotMatch(await holds(page, 1, 2), /kept$/);
});

test('OneCellIsInTheTabOrderAndEachHasRowAndPlace', async () => {
  assert.equal(await page.locator('[role=gridcell][tabindex="0"]').count(), 1);
  assert.match(await cell(page, 2, 3).getAttribute('aria-label'), /^Row 2, place 3: /);
  assert.ok(Number(await page.locator('[role=grid]').getAttribute('aria-rowcount')) >= 3);
});

test('EveryChangeIsThereAfterAReload', async () => {
  const before = await pair();
  await page.mouse.click(...(await middle(page, 1, 1)));
  await page.mouse.click(...(await middle(page, 3, 2)));
  await page.reload();
  await cell(page, 1, 1).waitFor({state: 'attached'});
  await saved(page);
  await page.waitForFunction((was) => document.querySelector('[data-cell="0"]').getAttribute('aria-label').endsWith(was), before[1]);
  assert.deepEqual(await pair(), [before[1], before[0]]);
  assert.equal(await page.getByRole('button', {name: 'Undo'}).isEnabled(), true);
});

test('ArrangingIsSeenLiveAndCanBeStopped', async () => {
  // Large enough not to be over before it can be stopped.
  makeQuilt(join(room.folder, 'Large'), {size: '108x126', pattern: 'square'});
  await go(page, step('Large', 'top'));
  await cell(page, 14, 12).waitFor({state: 'attached'});
  const before = await pair();
  await page.getByRole('button', {name: 'Long'}).click();
  await page.getByRole('button', {name: 'Arrange the blocks'}).click();
  const line = page.locator('.falling');
  await page.waitForFunction(() => /score \d/.test(document.querySelector('.falling').textContent));
  assert.match(await line.textContent(), /touch(es)?, score \d+\.\d+/);
  await page.getByRole('button', {name: 'Stop here'}).click();
  await page.getByRole('button', {name: 'Arrange the blocks'}).waitFor();
  await page.waitForTimeout(300);
  assert.deepEqual(await pair(), before);

  await page.getByRole('button', {name: 'Quick'}).click();
  await page.getByRole('button', {name: 'Arrange the blocks'}).click();
  await page.getByRole('button', {name: 'Stop here'}).waitFor();
  await page.getByRole('button', {name: 'Arrange the blocks'}).waitFor({timeout: 240_000});
  assert.equal(await page.getByRole('button', {name: 'Undo'}).isEnabled(), true);
});

test('TheWholeTopLiesClearOfTheButtonsOverItsCorner', async () => {
  for (const size of [sizes.telephone, sizes.tablet, sizes.desktop, {width: 1280, height: 560}]) {
    await page.setViewportSize(size);
    await page.waitForTimeout(200);
    const under = await page.evaluate(() => {
      const over = document.querySelector('.nearness').getBoundingClientRect();
      return [...document.querySelectorAll('.cells [role=gridcell]')].map((cell) => cell.getBoundingClientRect())
          .filter((box) => box.right > over.left && box.left < over.right && box.bottom > over.top && box.top < over.bottom).length;
    });
    assert.equal(under, 0, `${size.width} x ${size.height}`);
  }
  await page.setViewportSize(sizes.desktop);
});

test('NothingWentWrongInThePageAndNoRequestLeftTheMachine', async () => {
  await go(page, '#/');
  assert.deepEqual(page.wrong, []);
  assert.deepEqual([...page.hosts], [`127.0.0.1:${room.port}`]);
});

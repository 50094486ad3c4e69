// The plan at the machine: pedals, the lock, the voice, a screen that stays awake, where one was.
import assert from 'node:assert/strict';
import {after, before, test} from 'node:test';
import {atTheTop, go, leave, press, step, Workroom} from './workroom.mjs';

const room = new Workroom();
let browser;
let page;

before(async () => {
  ({browser, page} = await atTheTop(room, 'Raffle'));
  // The browser of a test has no voice and no screen that could go dark.
  await page.evaluate(() => {
    window.said = [];
    window.lit = 0;
    speechSynthesis.speak = (one) => said.push(one.text);
    Object.defineProperty(navigator, 'wakeLock', {value: {request: async () => {
      ++lit;
      return {release: async () => void --lit};
    }}});
  });
  await go(page, step('Raffle', 'sheets'));
  await press(page, 'Sew from the screen');
});
after(() => leave(room, browser));

const at = async () => Number((await page.locator('.pieces').textContent()).match(/^Step (\d+) of \d+$/)[1]);
const lit = () => page.evaluate(() => window.lit);

test('OneStepStandsThereLargeWithALargeNext', async () => {
  assert.equal(await at(), 1);
  const size = await page.evaluate(() => ({next: document.querySelector('.next').getBoundingClientRect().height,
    words: parseFloat(getComputedStyle(document.querySelector('.huge')).fontSize), page: parseFloat(getComputedStyle(document.body).fontSize)}));
  assert.ok(size.next >= 100, `${size.next}`);
  assert.ok(size.words >= 1.7 * size.page, `${size.words}`);
});

test('PedalsGoOnAndBackByWhateverKeyTheySend', async () => {
  for (const key of ['PageDown', 'ArrowRight', 'ArrowDown', ' ', 'Enter']) {
    const before = await at();
    await page.keyboard.press(key);
    assert.equal(await at(), before + 1, key);
  }
  for (const key of ['PageUp', 'ArrowLeft', 'ArrowUp', 'Backspace']) {
    const before = await at();
    await page.keyboard.press(key);
    assert.equal(await at(), before - 1, key);
  }
  await page.getByRole('button', {name: 'Back', exact: true}).focus();
  const before = await at();
  await page.keyboard.press('Enter');
  assert.equal(await at(), before - 1, 'Enter on Back goes back');
  await press(page, 'Next');
});

test('LockedNoTouchDoesAnythingButAPedalStillDoes', async () => {
  await press(page, 'Lock');
  const before = await at();
  await page.locator('.next').click({force: true});
  assert.equal(await at(), before);
  assert.equal(await page.getByRole('button', {name: 'Leave', exact: true}).isDisabled(), true);
  await page.keyboard.press('Escape');
  assert.equal(await page.getByRole('dialog').isVisible(), true);
  await page.keyboard.press('PageDown');
  assert.equal(await at(), before + 1);
  await press(page, 'Hold to unlock');
  assert.equal(await page.getByRole('button', {name: 'Hold to unlock'}).count(), 1, 'a short touch does not unlock');
  await page.getByRole('button', {name: 'Hold to unlock'}).click({delay: 1000});
  await page.getByRole('button', {name: 'Lock', exact: true}).waitFor();
});

test('EachStepIsSaidAloudWhereSheLikes', async () => {
  assert.deepEqual(await page.evaluate(() => said), []);
  await press(page, 'Say it aloud');
  await page.keyboard.press('PageDown');
  const said = await page.evaluate(() => window.said);
  assert.equal(said.length, 2);
  assert.ok(said[1].endsWith(await page.locator('.huge').textContent()));
});

test('TheScreenIsKeptAwakeUntilSheLeaves', async () => {
  assert.equal(await lit(), 1);
  await press(page, 'Leave');
  await page.waitForFunction(() => window.lit === 0);
});

test('SheGoesOnWhereSheWas', async () => {
  await press(page, 'Sew from the screen');
  assert.ok(await at() > 1);
  await press(page, 'Leave');
  assert.deepEqual(page.wrong, []);
});

// What holds in every view: axe finds nothing, nothing runs off the side, targets are large enough, large text fits.
import assert from 'node:assert/strict';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {axeFinds, go, isGoodDialogue, launch, leave, makeQuilt, step, visit, Workroom} from './workroom.mjs';

const views = {home: '#/', guide: '#/guide', ...Object.fromEntries(['fabrics', 'choose', 'pattern', 'top', 'wall', 'sheets'].map((name) => [name, step('Raffle', name)]))};

const room = new Workroom();
let browser;

before(async () => {
  makeQuilt(join(room.folder, 'Raffle'));
  makeQuilt(join(room.folder, 'Plain & <b>bold'), {prints: []});
  await room.serve();
  browser = await launch();
});

after(() => leave(room, browser));

for (const colorScheme of ['light', 'dark']) {
  test(`AxeFindsNoViolationInAnyViewBy${colorScheme === 'light' ? 'Day' : 'Evening'}`, async (context) => {
    const page = await visit(browser, room, '#/', {colorScheme});
    for (const [name, place] of Object.entries(views)) {
      await go(page, place);
      await page.waitForTimeout(300);
      const {said, passed} = await axeFinds(page);
      context.diagnostic(`${name}, ${colorScheme}: ${said.length} violations, ${passed} rules passed`);
      assert.deepEqual(said, [], `${name}, ${colorScheme}`);
    }
    assert.deepEqual(page.wrong, []);
    await page.context().close();
  });
}

for (const [colorScheme, size] of [['light', {width: 390, height: 640}], ['dark', 'desktop']]) {
  test(`EveryDialogueHoldsTheFocusAndGivesItBackOnA${size === 'desktop' ? 'Desktop' : 'SmallTelephone'}`, async () => {
    const page = await visit(browser, room, '#/', {colorScheme, size});
    const opens = (name) => page.getByRole('button', {name, exact: true}).first();
    await isGoodDialogue(page, opens('Begin a quilt'));
    await page.getByLabel('More for Station raffle').first().click();
    for (const name of ['Copy', 'Rename', 'Lay aside']) await isGoodDialogue(page, opens(name));
    await go(page, step('Raffle', 'fabrics'));
    await isGoodDialogue(page, opens('No photograph: a colour'));
    await go(page, step('Raffle', 'top'));
    await page.locator('summary', {hasText: 'Layouts kept'}).click();
    await page.getByLabel(/^Keep/).fill('First hang');
    await page.getByLabel(/^Keep/).press('Enter');
    await isGoodDialogue(page, opens('See them side by side'));
    await go(page, step('Raffle', 'sheets'));
    await isGoodDialogue(page, opens('Sew from the screen'));
    assert.deepEqual(page.wrong, []);
    await page.context().close();
  });
}

test('BeforeThereAreFabricsItIsSaidWhatComesFirst', async () => {
  const page = await visit(browser, room, step('Plain & <b>bold', 'sheets'));
  assert.equal(await page.getByRole('button', {name: 'Sew from the screen'}).count(), 0);
  await page.locator('.card', {hasText: 'At the machine'}).getByRole('link', {name: 'Fabrics'}).click();
  await page.getByRole('heading', {name: 'Fabrics'}).waitFor();
  await page.context().close();
});

test('NoViewRunsOffTheSideAtAnyWidth', async () => {
  const page = await visit(browser, room);
  for (const width of [320, 390, 820, 1280]) {
    await page.setViewportSize({width, height: 800});
    for (const [name, place] of Object.entries(views)) {
      await go(page, place);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert.ok(over <= 0, `${name} at ${width}: ${over} px too wide`);
    }
  }
  await page.context().close();
});

test('TextAtTwiceItsSizeIsNotCutOff', async () => {
  const page = await visit(browser, room, '#/', {size: {width: 1280, height: 900}});
  for (const [name, place] of Object.entries(views)) {
    await go(page, place);
    await page.addStyleTag({content: ''}).catch(() => {});
    await page.evaluate(() => (document.documentElement.style.fontSize = '34px'));
    const cut = await page.evaluate(() => [...document.querySelectorAll('button, a, p, h1, h2, h3, label, summary')]
        .filter((one) => one.offsetParent && (one.scrollWidth > one.clientWidth + 1 && getComputedStyle(one).overflowX !== 'visible'))
        .map((one) => one.textContent.slice(0, 40)));
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert.deepEqual([name, cut, over <= 0], [name, [], true]);
  }
  await page.context().close();
});

test('EveryControlIsAtLeast24PixelsAndMainOnesAre44', async () => {
  const page = await visit(browser, room, '#/', {size: 'telephone', hasTouch: true});
  for (const [name, place] of Object.entries(views)) {
    await go(page, place);
    const small = await page.evaluate(() => [...document.querySelectorAll('button, a[href], select, summary, input:not(.hidden-file):not([type=checkbox]), [role=gridcell]')]
        .filter((one) => one.offsetParent && !one.closest('.skip') && !one.classList.contains('skip'))
        .map((one) => ({one, box: one.getBoundingClientRect()}))
        .filter(({one, box}) => box.width < 24 || box.height < (one.getAttribute('role') === 'gridcell' || one.type === 'range' ? 24 : 43.5))
        .map(({one, box}) => `${one.tagName} ${one.textContent.slice(0, 30)} ${Math.round(box.width)}x${Math.round(box.height)}`));
    assert.deepEqual(small, [], name);
  }
  await page.context().close();
});

test('ANameLikeMarkupShowsAsText', async () => {
  const page = await visit(browser, room, step('Plain & <b>bold', 'top'));
  assert.equal(await page.locator('b').count(), 0);
  await go(page, '#/');
  assert.equal(await page.locator('main b').count(), 0);
  assert.deepEqual(page.wrong, []);
  await page.context().close();
});

test('LessMotionAndForcedColoursAreHeeded', async () => {
  const page = await visit(browser, room, step('Raffle', 'top'), {reducedMotion: 'reduce', forcedColors: 'active'});
  await page.locator('.stage canvas').first().waitFor({state: 'attached'});
  const moving = await page.evaluate(() => document.getAnimations().length);
  assert.equal(moving, 0);
  assert.equal(await page.evaluate(() => getComputedStyle(document.querySelector('.stage canvas')).forcedColorAdjust), 'none');
  await page.context().close();
});

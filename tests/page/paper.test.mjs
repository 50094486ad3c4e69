// What the browser prints of the page.
import assert from 'node:assert/strict';
import {after, before, test} from 'node:test';
import {atTheTop, go, leave, step, Workroom} from './workroom.mjs';

const room = new Workroom();
let browser;
let page;

before(async () => ({browser, page} = await atTheTop(room, 'Raffle')));
after(() => leave(room, browser));

const pages = (pdf) => [...pdf.toString('latin1').matchAll(/\/Type\s*\/Page\b/g)].length;

test('TheTopFitsOnePageOfLetterAndOfA4EitherWayUp', async () => {
  for (const format of ['Letter', 'A4']) {
    for (const landscape of [false, true]) {
      assert.equal(pages(await page.pdf({format, landscape, preferCSSPageSize: false, printBackground: true})), 1, `${format} ${landscape}`);
    }
  }
});

test('ControlsStayOffThePaperAndTheTopIsOnItWithItsCodes', async () => {
  await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
  await page.emulateMedia({media: 'print'});
  const seen = await page.evaluate(() => [...document.querySelectorAll('button, nav, input, select, summary, .cells')].filter((one) => one.checkVisibility()).length);
  assert.equal(seen, 0);
  const paper = await page.locator('.on-paper canvas').boundingBox();
  assert.ok(paper.width > 200 && paper.height > 200);
  assert.match(await page.locator('.on-paper figcaption').textContent(), /\d+ × \d+ in/);
  // Dark letters on a pale plate stand in the middle of the first block's first patch.
  const dark = await page.evaluate(() => {
    const canvas = document.querySelector('.on-paper canvas');
    const pixels = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height).data;
    let count = 0;
    for (let k = 0; k < pixels.length; k += 4) count += pixels[k] === 0x17 && pixels[k + 1] === 0x13 && pixels[k + 2] === 0x0c;
    return count;
  });
  assert.ok(dark > 5000, `${dark}`);
});

test('NothingIsPrintedDarkFromADarkPage', async () => {
  await page.emulateMedia({media: 'print', colorScheme: 'dark'});
  assert.equal(await page.evaluate(() => getComputedStyle(document.body).backgroundColor), 'rgb(255, 255, 255)');
  const [r] = (await page.evaluate(() => getComputedStyle(document.body).color)).match(/\d+/g);
  assert.ok(Number(r) < 80);
});

test('NoOtherViewPrintsItsControls', async () => {
  for (const view of ['fabrics', 'choose', 'pattern', 'wall', 'sheets']) {
    await page.emulateMedia({media: 'screen'});
    await go(page, step('Raffle', view));
    await page.emulateMedia({media: 'print'});
    assert.equal(await page.evaluate(() => [...document.querySelectorAll('button, nav')].filter((one) => one.checkVisibility()).length), 0, view);
  }
  assert.deepEqual(page.wrong, []);
});

// A killed program, a second tab, a change made elsewhere.
import assert from 'node:assert/strict';
import {after, before, test} from 'node:test';
import {atTheTop, cell, holds, leave, middle, saved, Workroom} from './workroom.mjs';

const room = new Workroom();
let browser;
let page;

before(async () => ({browser, page} = await atTheTop(room, 'Raffle')));
after(() => leave(room, browser));

async function swap(on, a, b) {
  await on.mouse.click(...(await middle(on, ...a)));
  await on.mouse.click(...(await middle(on, ...b)));
}

test('ChangesMadeWhileTheProgramIsAwayAreSentWhenItIsBack', async () => {
  const [a, b] = [await holds(page, 1, 1), await holds(page, 2, 2)];
  await room.stop('SIGKILL');
  await page.getByRole('alert').getByText('cannot be reached').waitFor();
  await swap(page, [1, 1], [2, 2]);
  assert.deepEqual([await holds(page, 1, 1), await holds(page, 2, 2)], [b, a]);
  assert.ok(await page.evaluate(() => Object.keys(localStorage).some((key) => key.startsWith('pending '))));
  await room.serve();
  await page.getByText('cannot be reached').waitFor({state: 'detached'});
  await saved(page);
  await page.reload();
  await cell(page, 1, 1).waitFor({state: 'attached'});
  assert.deepEqual([await holds(page, 1, 1), await holds(page, 2, 2)], [b, a]);
});

test('ASecondTabIsWarnedSeesChangesAndOverwritesNothing', async () => {
  const second = await page.context().newPage();
  await second.goto(page.url());
  await cell(second, 1, 1).waitFor({state: 'attached'});
  await second.getByText('open in another tab').waitFor();
  await page.getByText('open in another tab').waitFor();
  const [a, b] = [await holds(page, 1, 2), await holds(page, 3, 3)];
  await swap(page, [1, 2], [3, 3]);
  await saved(page);
  await second.waitForFunction((was) => document.querySelector('[data-cell="1"]').getAttribute('aria-label').endsWith(was), b);
  await swap(second, [2, 1], [2, 3]);
  await saved(second);
  await page.reload();
  await cell(page, 1, 1).waitFor({state: 'attached'});
  assert.deepEqual([await holds(page, 1, 2), await holds(page, 3, 3)], [b, a]);
  assert.deepEqual([await holds(page, 2, 1), await holds(page, 2, 3)], [await holds(second, 2, 1), await holds(second, 2, 3)]);
});

test('AQuiltThatIsRenamedElsewhereIsFollowed', async () => {
  const renamed = await page.evaluate(() => fetch('/quilts/Raffle/name', {method: 'POST', headers: {'Content-Type': 'application/json'},
    body: JSON.stringify({name: 'Harbour'})}).then((response) => response.status));
  assert.equal(renamed, 200);
  await page.waitForURL(/#\/quilts\/Harbour\/top$/);
  await cell(page, 1, 1).waitFor({state: 'attached'});
  assert.deepEqual(page.wrong.filter((words) => !/ERR_CONNECTION_REFUSED|ERR_INCOMPLETE|404/.test(words)), []);
});

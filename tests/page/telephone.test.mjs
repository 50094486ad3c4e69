// A telephone as the camera, on a network of two machines: two network namespaces of this one, joined by a wire.
import assert from 'node:assert/strict';
import {execFileSync} from 'node:child_process';
import {chmodSync, writeFileSync} from 'node:fs';
import {join} from 'node:path';
import {after, before, test} from 'node:test';
import {axeFinds, launch, leave, makeQuilt, source, step, visit, Workroom} from './workroom.mjs';

const [house, street] = ['house', 'street'].map((name) => `farflung-${name}-${process.pid}`);
const kAddress = {house: '10.77.0.1', telephone: '10.77.0.2', stranger: '10.88.0.2'};
const ip = (...words) => execFileSync('ip', words, {stdio: 'pipe'}).toString();

function joined() {
  try {
    ip('netns', 'add', house);
    ip('netns', 'add', street);
    ip('-n', house, 'link', 'add', 'wire', 'type', 'veth', 'peer', 'name', 'wire', 'netns', street);
    ip('-n', house, 'addr', 'add', `${kAddress.house}/24`, 'dev', 'wire');
    ip('-n', street, 'addr', 'add', `${kAddress.telephone}/24`, 'dev', 'wire');
    ip('-n', street, 'addr', 'add', `${kAddress.stranger}/24`, 'dev', 'wire');
    for (const name of [house, street]) for (const link of ['lo', 'wire']) ip('-n', name, 'link', 'set', link, 'up');
    ip('-n', house, 'route', 'add', '10.88.0.0/24', 'via', kAddress.telephone);
    return false;
  } catch (error) {
    return `no network of our own can be made here: ${String(error.stderr ?? error.message).trim()}`;
  }
}

const skip = joined();
const room = new Workroom();
const within = (name) => ['ip', 'netns', 'exec', name];
let browsers = [];
let owner;
let telephone;
let address;

/** A browser that lives in one of the two machines. */
async function browserIn(name) {
  const script = join(room.folder, `.${name}`);
  writeFileSync(script, `#!/bin/sh\nexec ${within(name).join(' ')} ${process.env.CHROMIUM ?? '/usr/bin/chromium'} "$@"\n`);
  chmodSync(script, 0o755);
  return launch(script);
}

/** What a request from the street gets: its status, or the name of the error. */
function asked(url, from = kAddress.telephone) {
  const ask = `require('node:http').get(${JSON.stringify(url)}, {localAddress: '${from}', timeout: 5000}, (got) => {
    console.log(got.statusCode); process.exit(); }).on('error', (error) => console.log(error.code)).on('timeout', () => process.exit());`;
  const [first, ...words] = [...within(street), process.execPath, '-e', ask];
  return execFileSync(first, words).toString().trim();
}

before(async () => {
  if (skip) return;
  makeQuilt(join(room.folder, 'Raffle'));
  await room.serve({before: within(house)});
});

after(async () => {
  for (const browser of browsers) await browser.close();
  await leave(room);
  for (const name of [house, street]) {
    try {
      ip('netns', 'del', name);
    } catch { /* it was never made */ }
  }
});

test('WithoutLanNobodyOfTheNetworkReachesThePage', {skip}, async () => {
  assert.equal(asked(`http://${kAddress.house}:${room.port}/`), 'ECONNREFUSED');
  assert.equal(room.greeting.trim().split('\n').length, 1);
  await room.stop();
});

test('WithLanACodeAndPlainWordsStandInTheTerminal', {skip}, async () => {
  await room.serve({before: within(house), more: ['--lan']});
  await new Promise((done) => setTimeout(done, 200));
  assert.match(room.greeting, /For a telephone:/);
  assert.match(room.greeting, /[█▀▄]{8}/);
  assert.match(room.greeting, new RegExp(`http://${kAddress.house}:${room.port}/\\?key=[0-9a-f]{32}`));
  assert.match(room.greeting, /any device on the same network .* can knock/);
  assert.match(room.greeting, /not encrypted/);
});

test('KnockingWithoutTheCodeOrFromAnotherNetworkGetsNothing', {skip}, () => {
  const knock = `http://${kAddress.house}:${room.port}/`;
  assert.equal(asked(knock), '403');
  assert.equal(asked(`${knock}?key=${'0'.repeat(32)}`), '403');
  assert.equal(asked(room.address.replace('127.0.0.1', kAddress.house)), '403', 'the key of this machine opens for this machine alone');
  assert.notEqual(asked(knock, kAddress.stranger), '200');
});

test('TheCodeOnThePageOpensTheQuiltOnTheTelephone', {skip}, async () => {
  browsers = [await browserIn(house), await browserIn(street)];
  owner = await visit(browsers[0], room, step('Raffle', 'fabrics'));
  await owner.getByRole('button', {name: 'Use a telephone as the camera'}).click();
  await owner.waitForFunction(() => document.querySelector('.invite')?.naturalWidth > 0);
  assert.deepEqual((await axeFinds(owner)).said, []);
  address = await owner.getByText(/^http:/).textContent();
  const context = await browsers[1].newContext({viewport: {width: 390, height: 844}, hasTouch: true});
  telephone = await context.newPage();
  await telephone.goto(address);
  await telephone.getByRole('heading', {name: 'Fabrics'}).waitFor();
  assert.doesNotMatch(telephone.url(), /key=/);
});

test('ItsPhotographsLandInTheQuilt', {skip}, async () => {
  await telephone.locator('input[data-from=camera]').setInputFiles(join(source, 'data/demo/photographs/03-samphire.jpg'));
  await telephone.locator('.coming .done').waitFor({timeout: 120_000});
  await owner.getByRole('button', {name: 'Done'}).click();
  await owner.waitForFunction(() => [...document.querySelectorAll('.fabric input')].some((one) => one.value === 'Samphire'));
});

test('TheCodeOpensOnce', {skip}, () => assert.equal(asked(address.split('#')[0]), '403'));

// What every test of the page begins with: quilts in a folder of their own, the program serving them, a browser.
import assert from 'node:assert/strict';
import {execFileSync, spawn} from 'node:child_process';
import {cpSync, mkdtempSync, readFileSync, rmSync} from 'node:fs';
import {createRequire} from 'node:module';
import {tmpdir} from 'node:os';
import {join} from 'node:path';
import {chromium} from 'playwright-core';

export const program = process.env.FARFLUNG ?? 'farflung';
export const source = process.env.FARFLUNG_SOURCE ?? new URL('../..', import.meta.url).pathname;

const kColours = {Kelp: '#2f5d50', Buoy: '#c6503c', Gannet: '#e6edf2', Slipway: '#8a8d91', Oilskin: '#e0b13c',
  Trawl: '#31536b', Foghorn: '#6d5a7a', Thrift: '#d79aa8', Samphire: '#9aaf5c'};

export const sizes = {desktop: {width: 1280, height: 800}, tablet: {width: 820, height: 1180}, telephone: {width: 390, height: 844}};

const farflung = (...words) => execFileSync(program, words, {stdio: ['ignore', 'pipe', 'inherit'], maxBuffer: 1 << 26}).toString();

/** A quilt of plain colours, arranged. */
export function makeQuilt(folder, {size = '45x54', pattern = 'nine-patch', prints = Object.keys(kColours)} = {}) {
  farflung('new', folder, '--pattern', pattern, '--size', size, '--title', 'Station raffle');
  for (const name of prints) farflung('photo', folder, '--colour', kColours[name], '--name', name, '-q');
  if (prints.length) {
    try {
      farflung('arrange', folder, '--effort', '0.1', '-q');
    } catch (error) {
      if (error.status !== 3) throw error;  // done as well as can be
    }
  }
}

/** The program, serving a folder of its own; `stop` ends it and leaves the folder, `close` takes that away too. */
export class Workroom {
  constructor() {
    this.folder = mkdtempSync(join(tmpdir(), 'farflung-page-'));
    this.port = 0;
  }

  /** `before` are words before the program's own, `more` after them; what it says at first stays in `greeting`. */
  async serve({before = [], more = []} = {}) {
    const [first, ...words] = [...before, program, 'serve', this.folder, ...(this.port ? ['--port', String(this.port)] : []), ...more];
    this.process = spawn(first, words, {stdio: ['ignore', 'pipe', 'inherit']});
    this.address = await new Promise((done, failed) => {
      let text = '';
      this.process.stdout.on('data', (bytes) => {
        this.greeting = text += bytes;
        const found = text.match(/http:\S+/);
        if (found) done(found[0].split('#')[0]);
      });
      this.process.on('exit', () => failed(new Error('the program ended before it served')));
    });
    this.port = Number(new URL(this.address).port);
  }

  async stop(signal = 'SIGTERM') {
    const ended = new Promise((done) => this.process.once('exit', done));
    this.process.kill(signal);
    await ended;
  }

  copy(from, name) {
    cpSync(from, join(this.folder, name), {recursive: true});
  }

  async close() {
    if (this.process?.exitCode === null && !this.process.signalCode) await this.stop();
    rmSync(this.folder, {recursive: true, force: true});
  }
}

export const launch = (executablePath = process.env.CHROMIUM ?? '/usr/bin/chromium') => chromium.launch({executablePath,
  args: ['--headless', '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking',
    '--disable-component-update', '--disable-sync']});

/** A page of the program; what goes wrong in it is kept in `page.wrong`, where it asks things of in `page.hosts`. */
export async function visit(browser, workroom, place = '#/', {size = 'desktop', ...more} = {}) {
  const context = await browser.newContext({viewport: sizes[size] ?? size, ...more});
  const page = await context.newPage();
  page.setDefaultTimeout(30_000);
  page.wrong = [];
  page.hosts = new Set();
  page.on('pageerror', (error) => page.wrong.push(String(error)));
  page.on('console', (message) => message.type() === 'error' && page.wrong.push(message.text()));
  page.on('request', (request) => /^https?:/.test(request.url()) && page.hosts.add(new URL(request.url()).host));
  await page.goto(workroom.address);
  await go(page, place);
  return page;
}

/** A quilt of plain colours, served, and a browser that looks at its top. */
export async function atTheTop(room, quilt) {
  makeQuilt(join(room.folder, quilt));
  await room.serve();
  const browser = await launch();
  const page = await visit(browser, room, step(quilt, 'top'));
  await cell(page, 1, 1).waitFor({state: 'attached'});
  return {browser, page};
}

export async function leave(room, browser) {
  await browser?.close();
  await room.close();
}

/** Until the view of that place stands there: till then the one before can still be pressed. */
export async function go(page, place) {
  await page.evaluate((to) => (location.hash = to), place);
  await page.waitForFunction(() => document.getElementById('view').dataset.shows === location.hash);
}

export const step = (quilt, name) => `#/quilts/${encodeURIComponent(quilt)}/${name}`;

/** A cell of the top, by its place as people count. */
export const cell = (page, row, column) => page.locator(`[role=row][aria-rowindex="${row}"] > [aria-colindex="${column}"]`);

/** What a cell holds, as a screen reader says it. */
export const holds = async (page, row, column) => (await cell(page, row, column).getAttribute('aria-label')).replace(/^[^:]*: /, '');

/** Presses the button of that name. */
export const press = (page, name) => page.getByRole('button', {name, exact: true}).click();

/** The quilt's file, as the program has it. */
export const fileOf = (page, quilt = 'Raffle') =>
  page.evaluate((name) => fetch(`/quilts/${name}`).then((response) => response.json()).then((whole) => whole.quilt), quilt);

const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
const kRules = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];

/** What axe finds against the page as it stands, in words, and how many rules it passed. */
export async function axeFinds(page) {
  await page.evaluate(axe);
  const {violations, passes} = await page.evaluate((tags) => window.axe.run(document, {runOnly: {type: 'tag', values: tags}}), kRules);
  return {passed: passes.length, said: violations.map((one) =>
    `${one.id}: ${one.nodes.slice(0, 3).map((node) => `${node.html.slice(0, 140)} ${node.failureSummary.slice(0, 200)}`).join(' | ')}`)};
}

/**
 * What holds of any dialogue that this button opens: named, the focus in it, the buttons that end it in sight, axe content; Escape shuts it, and
 * the focus comes back.
 */
export async function isGoodDialogue(page, opener, whileOpen = async () => {}) {
  await opener.click();
  const box = page.getByRole('dialog', {name: /\S/});
  await box.waitFor();
  assert.ok(await box.evaluate((one) => one.contains(document.activeElement)), 'the focus is in the dialogue');
  assert.ok(await box.evaluate((one) => one.scrollWidth <= one.clientWidth), 'nothing runs off its side');
  const foot = await box.locator('.foot, .onward').boundingBox();
  assert.ok(foot.y >= 0 && foot.y + foot.height <= page.viewportSize().height, `its foot stands at ${foot.y}, ${foot.height} high`);
  assert.deepEqual((await axeFinds(page)).said, []);
  await whileOpen(box);
  await page.keyboard.press('Escape');
  await box.waitFor({state: 'detached'});
  assert.ok(await opener.evaluate((one) => one === document.activeElement), 'the focus is back where it was');
}

/** The middle of a cell on screen. */
export async function middle(page, row, column) {
  const box = await cell(page, row, column).boundingBox();
  return [box.x + box.width / 2, box.y + box.height / 2];
}

/** Once every change has been taken by the program. */
export async function saved(page) {
  await page.waitForFunction(() => !Object.keys(localStorage).some((key) => key.startsWith('pending ')));
  await page.waitForTimeout(50);
}

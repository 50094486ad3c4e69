// Which page is shown: the shelf of quilts, or one quilt at one step of the work.
import {homeView} from './home_view.js';
import {button, fill, make} from './make.js';
import {Quilt} from './quilt.js';
import {banner, lift, say} from './say.js';
import {kSteps, setLight, showHead} from './shell.js';
import {meetOthers} from './tabs.js';
import {topView} from './top_view.js';

/** What is seldom the first thing looked at comes when it is asked for. */
const kViews = {
  fabrics: async (quilt) => (await import('./fabrics_view.js')).fabricsView(quilt),
  choose: async (quilt) => (await import('./choose_view.js')).chooseView(quilt),
  pattern: async (quilt) => (await import('./pattern_view.js')).patternView(quilt),
  top: topView,
  wall: async (quilt) => (await import('./wall_view.js')).wallView(quilt),
  sheets: async (quilt) => (await import('./sheets_view.js')).sheetsView(quilt),
};

const kPatience = 150;  // milliseconds

let quilt = null;
let view = null;
let leaveOthers = () => {};
let visit = 0;

function place() {
  const [, quilts, name, step] = location.hash.split('/').map(plain);
  if (quilts === 'guide') return {name: null, topic: name || 'start'};
  return quilts === 'quilts' && name ? {name, step: kSteps.some(([key]) => key === step) ? step : 'top'} : {name: null};
}

/** An address typed wrong names no quilt; it is shown as it was typed. */
function plain(part) {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

async function go() {
  const mine = ++visit;
  const waiting = setTimeout(() => sayWait(mine), kPatience);
  const {name, step, topic} = place();
  view?.close?.();
  view = null;
  for (const box of document.querySelectorAll('dialog[open]')) box.close();  // it asked about what one goes away from
  if (quilt?.name !== name) await leave();
  try {
    if (name && !quilt) await open(name);
    if (mine !== visit) return;
    showHead(name, topic ? 'Guide' : quilt?.top.title || name, step, topic);
    const next = topic ? await (await import('./guide_view.js')).guideView(topic) : name ? await kViews[step](quilt) : await homeView();
    if (mine !== visit) return next.close?.();
    view = next;
    show(view.element);
  } catch (error) {
    if (mine === visit) couldNotOpen(name, error);
  } finally {
    clearTimeout(waiting);
  }
}

/** The last view's things do not stand under the next one's name. */
function sayWait(mine) {
  if (mine === visit) fill(document.getElementById('view'), make('p', {class: 'quiet'}, 'A moment …'));
}

function show(element) {
  const main = document.getElementById('view');
  const moved = main.childElementCount > 0 && !main.querySelector('.quiet:only-child');
  fill(main, element);
  main.dataset.shows = location.hash;
  if (moved) main.focus({preventScroll: true});
  scrollTo(0, 0);
}

async function leave() {
  quilt?.close();
  quilt = null;
  leaveOthers();
  leaveOthers = () => {};
  for (const key of ['lost', 'elsewhere', 'moved-on', 'tab']) lift(key);
}

async function open(name) {
  const opened = new Quilt(name);
  watch(opened);
  await opened.open();
  quilt = opened;
  leaveOthers = meetOthers(name);
}

function watch(opened) {
  const on = (kind, does) => opened.addEventListener(kind, ({detail}) => does(detail));
  on('lost', () => banner('lost', 'The program cannot be reached. Go on: your changes are kept here and are sent when it is back.', [], true));
  on('back', () => {
    lift('lost');
    say('The program is back.');
  });
  on('refused', ({says}) => say(says));
  on('gone', ({name}) => {
    const {step} = place();
    location.hash = name ? `#/quilts/${encodeURIComponent(name)}/${step}` : '#/';
    say(name ? `This quilt is called ${name} now.` : 'This quilt was laid aside.');
  });
  on('elsewhere', ({says}) => say(`Changed elsewhere: ${says}`));
  on('moved-on', () => banner('moved-on', 'The quilt was changed elsewhere while the program was away. Your changes are being made on it as it is now.',
      [['I have seen it', () => lift('moved-on')]]));
}

function couldNotOpen(name, error) {
  showHead(null, name ?? '', null);
  show(make('div', {class: 'page narrow'}, make('h1', {}, name ? `${name} could not be opened` : 'Your quilts could not be listed'),
      make('p', {}, error.message), make('div', {class: 'row'}, button('Try again', go, {class: 'main'}), name && make('a', {class: 'button', href: '#/'}, 'To your quilts'))));
  console.error(error);
}

setLight();
addEventListener('hashchange', go);
go();

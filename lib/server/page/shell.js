// The head of every page: where one is, the steps of the work, light or dark.
import {fill, make, button} from './make.js';

/** In the order of the work. */
export const kSteps = [['fabrics', 'Fabrics'], ['choose', 'Choose'], ['pattern', 'Pattern and size'], ['top', 'The top'],
  ['wall', 'The wall'], ['sheets', 'Sheets']];

export const addressOf = (quilt, step) => `#/quilts/${encodeURIComponent(quilt)}/${step}`;

/** @param {string|null} quilt  null on the shelf of quilts */
export function showHead(quilt, title, step, topic) {
  const head = document.getElementById('head');
  const home = make('a', {class: 'home', href: '#/', 'aria-current': quilt || topic ? false : 'page'},
      make('img', {src: 'mark.svg', alt: '', width: 32, height: 32}), 'Your quilts');
  fill(head, home, quilt && make('p', {class: 'title'}, title), make('a', {class: 'button plain', href: '#/guide', 'aria-current': topic ? 'page' : false}, 'Guide'), lightButton(), quilt && make('nav', {'aria-label': 'The work, step by step'},
    make('ol', {class: 'steps'}, kSteps.map(([key, words]) => make('li', {}, make('a', {href: addressOf(quilt, key),
      'aria-current': key === step ? 'step' : false}, words))))));
  document.title = [kSteps.find(([key]) => key === step)?.[1], title, 'Farflung'].filter(Boolean).join(' · ');
  head.querySelector('[aria-current=step]')?.scrollIntoView({block: 'nearest', inline: 'center'});
}

const kLights = {auto: 'Light: auto', light: 'Light: day', dark: 'Light: evening'};

/** The light of the page; cloth keeps its own colours in any. */
export function setLight(light = localStorage.getItem('light') ?? 'auto') {
  if (light === 'auto') delete document.documentElement.dataset.light;
  else document.documentElement.dataset.light = light;
  localStorage.setItem('light', light);
  return light;
}

function lightButton() {
  const choices = Object.keys(kLights);
  const here = button(kLights[setLight()], () => {
    const next = choices[(choices.indexOf(setLight()) + 1) % choices.length];
    here.textContent = kLights[setLight(next)];
  }, {class: 'plain light'});
  return here;
}

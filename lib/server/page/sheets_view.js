// Sheets: the plan on paper, shown and saved by part; and the plan at the machine.
import {get} from './ask.js';
import {clothCard} from './cloth_card.js';
import {button, either, field, fill, large, make} from './make.js';
import {machine} from './machine.js';
import {say} from './say.js';
import {addressOf} from './shell.js';
import {waits} from './waits.js';
import {work} from './work.js';

/** @param {import('./quilt.js').Quilt} quilt */
export async function sheetsView(quilt) {
  const {sheets} = await get('/library');
  let paper = localStorage.getItem('paper') ?? (quilt.file.units === 'in' ? 'letter' : 'a4');
  const part = make('select', {}, make('option', {value: ''}, 'Everything'),
      sheets.map(({name, says}) => make('option', {value: name}, large(says))));
  const shown = make('div', {class: 'sheet', 'aria-live': 'polite'});
  const show = button('Show it', make_it, {class: 'main'});

  async function make_it() {
    show.disabled = true;
    fill(shown, make('p', {class: 'quiet'}, 'Being drawn…'));
    try {
      const run = await work(quilt, 'sheets', {paper, only: part.value ? [part.value] : []});
      const pages = run.answer.pages?.length ?? 0;
      const address = `${run.file}?v=${run.id}`;
      const words = large(part.value || 'everything');
      fill(shown, make('div', {class: 'row'}, make('p', {}, `${words}: ${pages} ${pages === 1 ? 'page' : 'pages'}.`),
          make('a', {class: 'button', href: `${run.file}?save=1`, download: `${quilt.name}.pdf`}, 'Save the PDF'),
          make('a', {class: 'button', href: address, target: '_blank'}, 'Open it by itself')),
      make('iframe', {class: 'paper', src: address, title: `${words}, as PDF`}));
    } catch (error) {
      fill(shown, make('p', {class: 'warn'}, error.message));
    }
    show.disabled = false;
  }

  const papers = either('Paper', [['letter', 'Letter'], ['a4', 'A4']], paper, (chosen) => {
    paper = chosen;
    localStorage.setItem('paper', chosen);
  });
  const element = make('div', {class: 'page'}, make('h1', {}, 'Sheets'),
      make('div', {class: 'two'},
          make('section', {class: 'card'}, make('h2', {}, 'On paper'), field('Which', part), make('p', {class: 'hint'}, 'Paper'), papers,
              make('div', {class: 'row'}, show)),
          make('section', {class: 'card'}, make('h2', {}, 'At the machine'),
              make('p', {}, 'One seam after the other, large enough to read while you sew. A page-turning pedal goes on, so does any arrow key.'),
              toSew(quilt),
              make('p', {class: 'hint'}, 'Rotary cutters and irons bite: shut the blade, stand the iron on its heel, keep children off both.')),
          clothCard(quilt)),
      shown);
  return {element};
}

/** The way to the machine, or what comes before it. */
function toSew(quilt) {
  const before = waits(quilt);
  if (!before) return make('div', {class: 'row'}, button('Sew from the screen', () => machine(quilt).catch((error) => say(error.message)), {class: 'main'}));
  const there = quilt.top.prints.length > 0 && [': ', make('a', {href: addressOf(quilt.name, 'top')}, 'The top')];
  return make('p', {class: 'warn'}, `${before.stands}. `, before.says, there, '.');
}

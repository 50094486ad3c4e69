// Choose: which of her prints go into the quilt, and why.
import {button, field, fill, large, make} from './make.js';
import {swatch} from './prints_panel.js';
import {say} from './say.js';
import {addressOf} from './shell.js';
import {work} from './work.js';

/** @param {import('./quilt.js').Quilt} quilt */
export function chooseView(quilt) {
  const {prints} = quilt.top;
  const wanted = new Map();
  const most = Math.max(1, prints.length);
  const take = make('input', {type: 'number', min: 1, max: most, value: Math.min(most, Math.max(2, Math.round(most * 0.6)))});
  const lively = make('input', {type: 'range', min: 0, max: 1, step: 0.05, value: 0.5});
  const found = make('div', {class: 'column', 'aria-live': 'polite'});
  const find = button('Choose for me', search, {class: 'main', disabled: prints.length < 2});

  async function search() {
    find.disabled = true;
    fill(found, make('p', {class: 'quiet'}, 'Laying them beside each other…'));
    const named = (what) => [...wanted].filter(([, does]) => does === what).map(([id]) => id);
    try {
      const {answer} = await work(quilt, 'choose', {take: Number(take.value), lively: Number(lively.value), keep: named('keep'), drop: named('drop')});
      fill(found, ranked(quilt, answer));
    } catch (error) {
      fill(found, make('p', {class: 'warn'}, error.message));
    }
    find.disabled = false;
  }

  /** In any case, not at all, or as it comes. */
  function wish(print) {
    const words = {undefined: 'As it comes', keep: 'In any case', drop: 'Leave out'};
    const one = button([swatch(quilt, print, 128), make('span', {class: 'code'}, print.code), make('span', {class: 'name'}, print.name),
      make('span', {class: 'wish'}, words[undefined])], () => {
      const next = {undefined: 'keep', keep: 'drop', drop: undefined}[wanted.get(print.id)];
      if (next) wanted.set(print.id, next);
      else wanted.delete(print.id);
      one.dataset.wish = next ?? '';
      one.querySelector('.wish').textContent = words[next];
    }, {class: 'chip'});
    return one;
  }

  const element = make('div', {class: 'page'}, make('h1', {}, 'Choose'),
      make('p', {}, prints.length > 1 ? 'Tap a print to say that it must be in, or must stay out. The rest is weighed.' :
        ['There is a choice from two fabrics on. Bring them in first: ', make('a', {href: addressOf(quilt.name, 'fabrics')}, 'Fabrics'), '.']),
      make('div', {class: 'prints'}, prints.map(wish)),
      prints.length > 1 && make('section', {class: 'card'}, make('div', {class: 'two'}, field(`How many of the ${prints.length}`, take),
          field('Calm or lively', lively, 'Left: colours held together. Right: colours spread.')), make('div', {class: 'row'}, find)), found);
  return {element};
}

function ranked(quilt, answer) {
  const sets = [answer, ...(answer.others ?? [])];
  const use = async (set) => {
    if (!await quilt.change({does: 'take', value: set.take})) return;
    say('These are in the blocks now, and no others. Undo takes them out again.');
    location.hash = addressOf(quilt.name, 'top');
  };
  const shown = (ids) => make('div', {class: 'set'}, ids.map((id) => quilt.print(id)).filter(Boolean).map((print) => make('figure', {}, swatch(quilt, print, 96),
      make('figcaption', {}, make('span', {class: 'code'}, print.code), ` ${print.name}`))));
  return sets.map((set, k) => make('section', {class: 'card'}, make('h2', {}, k ? `Also good, ${k + 1}` : 'These go best together'),
      k ? exchanged(answer.take, set.take, shown) : shown(set.take),
      make('ul', {class: 'why'}, [].concat(set.why ?? []).map((why) => make('li', {}, large(typeof why === 'string' ? why : why.says)))),
      make('div', {class: 'row'}, button('Use these', () => use(set), {class: k ? '' : 'main', 'aria-label': k ? `Use these, ${k + 1}` : 'Use these'}))));
}

/** Another set by what it has in place of what: most of it is the same. */
function exchanged(best, take, shown) {
  const without = (some, others) => some.filter((id) => !others.includes(id));
  return make('div', {class: 'column'},
      make('div', {class: 'exchange'}, shown(without(take, best)), make('span', {}, 'instead of'), shown(without(best, take))),
      make('details', {class: 'more'}, make('summary', {}, `All ${take.length}`), shown(take)));
}

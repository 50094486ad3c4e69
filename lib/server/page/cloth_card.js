// What to cut and what to buy, and the spare blocks that the cloth allows.
import {inchesSay} from './lengths.js';
import {button, fill, make} from './make.js';
import {say} from './say.js';
import {work} from './work.js';

/** @param {import('./quilt.js').Quilt} quilt */
export function clothCard(quilt) {
  const found = make('div', {class: 'column', 'aria-live': 'polite'});
  const reckon = button('Reckon the cloth', () => ask({spares: true}));

  async function ask(wishes) {
    reckon.disabled = true;
    fill(found, make('p', {class: 'quiet'}, 'Reckoning…'));
    try {
      const {answer} = await work(quilt, 'cloth', wishes);
      fill(found, told(quilt, answer), spares(answer));
    } catch (error) {
      fill(found, make('p', {class: 'warn'}, error.message));
    }
    reckon.disabled = false;
  }

  function spares({spares: offered}) {
    if (!offered) return null;
    if (offered.taken?.length) say('The spare blocks belong to the quilt now. Undo takes them out again.');
    const more = offered.copies.length && !offered.taken;
    return [make('h3', {}, 'Spare blocks'), make('p', {}, offered.taken?.length ? `Taken: ${offered.taken.join(', ')}.` : offered.says),
      more && button('Make them part of the quilt', () => ask({spares: true, take_spares: true}))];
  }

  return make('section', {class: 'card'}, make('h2', {}, 'Cloth'),
      make('p', {}, 'What to buy, whether the cloth in hand is enough, and how many blocks more it would make.'), make('div', {class: 'row'}, reckon), found);
}

function told(quilt, answer) {
  const nameOf = (id) => quilt.print(id)?.name;
  const inHand = quilt.file.prints.some((print) => print.cloth?.length);
  return [inHand && make('p', {class: answer.enough ? '' : 'warn'}, answer.enough ? 'The cloth in hand is enough.' : 'The cloth in hand is not enough.'),
    answer.buy.length > 0 && [make('h3', {}, 'To buy'), make('ul', {class: 'plain-list'}, answer.buy.map((one) => make('li', {},
        make('span', {}, nameOf(one.print) ? `${one.for}, ${nameOf(one.print)}` : one.for), make('strong', {}, amountSays(one)))))],
    (answer.says ?? []).map((line) => make('p', {class: 'hint'}, line)),
    (answer.cautions ?? []).map((line) => make('p', {class: 'hint'}, line))];
}

/** "2 5/8 yd", as it is asked for over the counter. */
const amountSays = ({amount, unit}) => (unit === 'yd' ? inchesSay(amount, 'in').replace('in', unit) : `${amount} ${unit}`);

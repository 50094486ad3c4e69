// What to cut and what to buy, and the spare blocks that the cloth allows.
import {button, fill, large, make} from './make.js';
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
    const more = offered.copies.length > 0 && !offered.taken;
    return [make('h3', {}, 'Spare blocks'), make('p', {}, offered.taken?.length ? `Taken: ${offered.taken.join(', ')}.` : offered.says),
      more && button('Make them part of the quilt', () => ask({spares: true, take_spares: true}))];
  }

  return make('section', {class: 'card'}, make('h2', {}, 'Cloth'),
      make('p', {}, 'What to buy, whether the cloth in hand is enough, and how many blocks more it would make.'), make('div', {class: 'row'}, reckon), found);
}

function told(quilt, answer) {
  const inHand = quilt.file.prints.some((print) => print.cloth?.length);
  return [inHand && make('p', {class: answer.enough ? '' : 'warn'}, answer.enough ? 'The cloth in hand is enough.' : 'The cloth in hand is not enough.'),
    answer.list.length > 0 && [make('h3', {}, 'To buy'), make('ul', {class: 'plain-list'}, answer.list.map((line) => make('li', {},
        make('span', {}, [large(line.for), line.prints.map((id) => quilt.print(id)?.name || id).join(', ')].filter(Boolean).join(': ')), make('strong', {}, amountSays(line)))))],
    answer.unchosen_binding && make('p', {}, answer.unchosen_binding),
    (answer.says ?? []).map((line) => make('p', {class: 'hint'}, line)),
    (answer.cautions ?? []).map((line) => make('p', {class: 'hint'}, line))];
}

/** As it is asked for over the counter: "2 5/8 yd", or "1/4 yd each, 3 yd in all". */
const amountSays = ({prints, each, in_all: all}) => (prints.length > 1 ? `${each} each, ${all} in all` : each);

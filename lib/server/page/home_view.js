// Her quilts: pictures of them, and what is done with a whole one.
import {get, of, post, remove, upload} from './ask.js';
import {button, field, fill, make, many, sentences} from './make.js';
import {askFor, banner, lift, say} from './say.js';
import {addressOf} from './shell.js';

export async function homeView() {
  const grid = make('ul', {class: 'shelf'});
  const aside = make('div', {});

  async function look() {
    const list = await get('/quilts');
    fill(grid, list.quilts.map((one) => card(one, does)));
    if (!list.quilts.length) fill(grid, make('li', {class: 'empty'}, make('p', {}, 'No quilt here yet. Begin one, bring one in from another machine, or look at the one that comes with the program.')));
    fill(aside, list.aside?.length ? [make('h2', {}, 'Laid aside'), make('ul', {class: 'plain-list'}, list.aside.map((name) => make('li', {},
        make('span', {}, name), button('Take it up again', () => does(() => post(`/aside/${encodeURIComponent(name)}`, {}), `${name} is back.`)))))] : []);
  }

  async function does(what, words) {
    try {
      const answer = await what();
      await look();
      if (document.activeElement === document.body) document.getElementById('view').focus();  // what was pressed is drawn anew
      if (words) say(words);
      return answer;
    } catch (error) {
      say(error.message);
      return null;
    }
  }

  const file = make('input', {type: 'file', class: 'hidden-file', accept: '.tar,application/x-tar', tabindex: -1,
    'aria-label': 'A packed quilt', onchange: () => file.files[0] && bringIn(file.files[0])});
  async function bringIn(packed) {
    const answer = await does(() => upload(`/packed?name=${encodeURIComponent(packed.name)}`, packed), `${packed.name} is unpacked.`);
    file.value = '';
    return answer;
  }

  await look();
  const element = make('div', {class: 'page'}, make('h1', {}, 'Your quilts'),
      make('div', {class: 'row actions'}, button('Begin a quilt', () => begin(), {class: 'main'}),
          button('Bring one in', () => file.click()), file,
          button('See the raffle quilt', () => does(() => demo(), 'The lifeboat station’s raffle quilt is there.'))),
      grid, aside);
  return {element};
}

function card(one, does) {
  const {name} = one;
  const called = one.title || name;
  const picture = make('img', {alt: '', loading: 'lazy', src: `${of(name, 'picture.png')}?width=480&v=${one.version}`});
  const more = make('details', {class: 'more'}, make('summary', {'aria-label': `More for ${called}`}, 'More'),
      make('div', {class: 'column'},
          button('Copy', async () => {
            const to = await askName(`A copy of ${called}`, `${called} copy`, 'Copy it');
            if (to) await does(() => post(of(name, 'copy'), {name: to}), `Copied to ${to}.`);
          }),
          button('Rename', async () => {
            const to = await askName(`Another name for ${called}`, called, 'Rename it');
            if (to) await does(() => post(of(name, 'name'), {name: to}), `It is called ${to} now.`);
          }),
          make('a', {class: 'button', href: of(name, 'packed'), download: ''}, 'Pack to one file'),
          button('Lay aside', async () => {
            const sure = await askFor(`Lay ${called} aside?`, make('p', {}, 'Nothing is deleted: it can be taken up again from the foot of this page.'), 'Lay it aside');
            if (sure) await does(() => remove(of(name)), `${called} is laid aside.`);
          })));
  if (one.problems?.length) {
    return make('li', {class: 'quilt'}, make('h2', {}, name), make('p', {class: 'warn'}, `Its file cannot be read. ${sentences(one.problems)}`), more);
  }
  return make('li', {class: 'quilt'}, make('a', {href: addressOf(name, one.prints ? 'top' : 'fabrics')}, picture, make('h2', {}, called)),
      make('p', {class: 'quiet'}, `${one.finished_size} finished, ${many(one.blocks, 'block', 'blocks')}, ${many(one.prints, 'print', 'prints')}`), more);
}

async function askName(title, value, yes) {
  const input = make('input', {type: 'text', value, required: true, maxlength: 60, autocomplete: 'off'});
  return askFor(title, field('Name', input), yes, {read: () => input.value.trim()});
}

async function begin() {
  const name = make('input', {type: 'text', required: true, maxlength: 60, autocomplete: 'off', value: ''});
  const units = make('select', {}, make('option', {value: 'in'}, 'Inches'), make('option', {value: 'cm'}, 'Centimetres'));
  const asked = await askFor('Begin a quilt', [field('Its name', name), field('Measured in', units),
    make('p', {class: 'hint'}, 'Pattern and size can be chosen later, with your own fabrics drawn into them.')], 'Begin',
  {read: () => ({name: name.value.trim(), title: name.value.trim(), units: units.value, pattern: 'nine-patch', size: 'lap'})});
  if (!asked) return;
  try {
    await post('/quilts', asked);
    location.hash = addressOf(asked.name, 'fabrics');
  } catch (error) {
    say(error.message);
  }
}

/** The quilt that comes with the program, made from its photographs: that takes a while, and is told. */
async function demo() {
  let run = await post('/demo', {});
  const {id} = run;
  banner('demo', 'The raffle quilt is being made from its photographs…', [['Stop', () => remove(`/demo/${id}`)]]);
  while (['waiting', 'running'].includes(run.state ?? 'running')) {
    await new Promise((done) => setTimeout(done, 700));
    run = await get(`/demo/${id}`);
    const words = document.querySelector('#banner-demo p');
    if (words && run.at) words.textContent = `The raffle quilt is being made: ${run.at}`;
  }
  lift('demo');
  if (run.state === 'failed') throw new Error((run.answer?.problems ?? [])[0]?.says ?? 'It could not be made.');
}

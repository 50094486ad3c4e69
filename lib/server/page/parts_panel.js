// Border, binding, thread and the rest, tried in place: of the quilt's own prints, or of a photograph of others.
import {of, upload} from './ask.js';
import {fill, make, button, either, field, large} from './make.js';
import {panel} from './panel.js';
import {swatch} from './prints_panel.js';
import {say} from './say.js';
import {finished, work} from './work.js';

const kParts = [['border', 'Border'], ['binding', 'Binding'], ['backing', 'Backing'], ['sashing', 'Sashing'],
  ['background', 'Background'], ['setting', 'Setting pieces'], ['thread', 'Thread']];
const kMostShown = 6;
const kQuilting = [['lines', 'Straight lines'], ['waves', 'Waves'], ['loops', 'Loops'], ['pebbles', 'Pebbles']];

export function partsPanel(view) {
  const {quilt} = view;
  let shows = false;
  const part = make('select', {onchange: () => {
    photographs.hidden = part.value === 'thread';
    quilting.hidden = !photographs.hidden;
  }},
      kParts.map(([key, words]) => make('option', {value: key}, words)));
  const found = make('div', {class: 'tried', 'aria-live': 'polite'});
  const own = button('Try the fabrics', () => attempt(() => work(quilt, 'try', {as: part.value, style: style.value, show: shows})));
  const style = make('select', {}, kQuilting.map(([key, words]) => make('option', {value: key}, words)));
  const quilting = make('div', {class: 'column', hidden: true}, field('Quilted in', style),
      either('What the thread does', [[false, 'It blends'], [true, 'It shows']], false, (chosen) => (shows = chosen)));
  const source = (words, more) => {
    const input = make('input', {type: 'file', accept: 'image/*,.heic,.heif', class: 'hidden-file', tabindex: -1, 'aria-hidden': 'true', ...more,
      onchange: () => input.files[0] && bring(input)});
    return [button(words, () => input.click()), input];
  };
  const photographs = make('div', {class: 'column'}, make('p', {class: 'hint'}, 'Or others, from a photograph: a bolt in the shop, a piece from the stash. They stay out of the quilt until you bring them in.'),
      make('div', {class: 'row'}, source('Photograph others', {capture: 'environment'}), source('Choose a photograph', {'data-from': 'others'})));

  async function attempt(does) {
    own.disabled = true;
    fill(found, make('p', {class: 'quiet'}, 'Trying each in its place…'));
    try {
      const run = await does();
      fill(found, picture(run), part.value === 'thread' ? threads(run.answer) : prints(run.answer));
    } catch (error) {
      fill(found, make('p', {class: 'warn'}, error.message));
    }
    own.disabled = false;
  }

  async function bring(input) {
    const [file] = input.files;
    input.value = '';
    const asked = new URLSearchParams({name: file.name, as: part.value});
    await attempt(async () => finished(quilt, await upload(`${of(quilt.name, 'trials')}?${asked}`, file)));
    if (!found.querySelector('.warn')) found.append(button('Bring this photograph’s fabrics in', (event) => takeIn(event.currentTarget, file)));
  }

  /** As on the page of fabrics; then they are the quilt's own, and can be used. */
  async function takeIn(pressed, file) {
    pressed.disabled = true;
    try {
      await finished(quilt, await upload(`${of(quilt.name, 'photographs')}?${new URLSearchParams({name: file.name})}`, file));
      await quilt.read();
      say('They are among the fabrics now.');
      await attempt(() => work(quilt, 'try', {as: part.value}));
    } catch (error) {
      pressed.disabled = false;
      say(error.message);
    }
  }

  function picture(run) {
    return run.file && make('a', {href: run.file, target: '_blank'},
        make('img', {src: run.file, class: 'sampler', alt: 'The best of them on the quilt, drawn side by side. Opens large.'}));
  }

  function prints(answer) {
    return make('ol', {class: 'ranked'}, (answer.ranked ?? []).slice(0, kMostShown).map((one) => {
      const print = quilt.print(one.print);
      return make('li', {}, print && swatch(quilt, print, 96), make('div', {}, make('strong', {}, one.name), why(one.why)),
          print && button('Use it', () => use(print), {'aria-label': `Use ${one.name}`}));
    }));
  }

  function threads({top, back, quilting: {says}}) {
    return [['On the top', top], ['On the back', back]].map(([where, ranked]) => ranked.length > 0 && [make('h3', {}, where),
      make('ol', {class: 'ranked'}, ranked.slice(0, kMostShown).map((one) => make('li', {}, spool(one.colour),
          make('div', {}, make('strong', {}, one.thread), why(one.says)))))]).concat(make('p', {class: 'hint'}, says));
  }

  async function use(print) {
    if (await quilt.change({does: 'use', part: part.value, value: print.id})) say(`${print.name} is in its place. Undo takes it out again.`);
  }

  return {element: panel('Border, binding, thread', false, field('Part', part), quilting, own, photographs, found)};
}

function spool(colour) {
  const plain = make('span', {class: 'swatch'});
  plain.style.backgroundColor = colour;
  return plain;
}

const why = (reasons) => [].concat(reasons).map((one) => make('p', {class: 'hint'}, large(one)));

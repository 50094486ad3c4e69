// Border, binding, thread and the rest, tried in place.
import {fill, make, button, field} from './make.js';
import {panel} from './panel.js';
import {swatch} from './prints_panel.js';
import {say} from './say.js';
import {work} from './work.js';

const kParts = [['border', 'Border'], ['binding', 'Binding'], ['backing', 'Backing'], ['sashing', 'Sashing'],
  ['background', 'Background'], ['setting', 'Setting pieces'], ['thread', 'Thread']];
const kMostShown = 6;

export function partsPanel(view) {
  const {quilt} = view;
  const part = make('select', {}, kParts.map(([key, words]) => make('option', {value: key}, words)));
  const found = make('div', {class: 'tried'});
  const search = button('Try the fabrics', async () => {
    search.disabled = true;
    fill(found, make('p', {class: 'quiet'}, 'Trying each in its place…'));
    try {
      const run = await work(quilt, 'try', {as: part.value});
      fill(found, picture(run), part.value === 'thread' ? threads(run.answer) : prints(run.answer));
    } catch (error) {
      fill(found, make('p', {class: 'warn'}, error.message));
    }
    search.disabled = false;
  });

  function picture(run) {
    return run.file && make('a', {href: run.file, target: '_blank'},
        make('img', {src: run.file, class: 'sampler', alt: 'The best of them on the quilt, drawn side by side. Opens large.'}));
  }

  function prints(answer) {
    return make('ol', {class: 'ranked'}, (answer.ranked ?? []).slice(0, kMostShown).map((one) => {
      const print = quilt.print(one.print);
      const takes = print && pointerOf(quilt.file, part.value);
      return make('li', {}, print && swatch(quilt, print, 96), make('div', {}, make('strong', {}, one.name),
          make('p', {class: 'hint'}, one.why)), takes && button('Use it', () => use(takes, print), {'aria-label': `Use ${one.name}`}));
    }));
  }

  function threads(answer) {
    return make('ol', {class: 'ranked'}, (answer.threads ?? answer.ranked ?? []).slice(0, kMostShown).map((one) =>
      make('li', {}, make('div', {}, make('strong', {}, one.name), make('p', {class: 'hint'}, one.why ?? one.says ?? '')))));
  }

  async function use(pointer, print) {
    if (await quilt.set(pointer, print.id)) say(`${print.name} is in its place. Undo takes it out again.`);
  }

  return {element: panel('Border, binding, thread', false, field('Part', part), search, found)};
}

/** Where in the quilt's file the print of a part stands, null where there is no such part yet. */
function pointerOf(file, part) {
  const {borders = [], sashing} = file.setting;
  return {
    border: borders.length ? `/setting/borders/${borders.length - 1}/print` : null,
    binding: file.binding ? '/binding/print' : null,
    backing: file.backing ? '/backing/print' : null,
    sashing: sashing ? '/setting/sashing/print' : null,
    setting: '/setting/filler',
  }[part] ?? null;
}

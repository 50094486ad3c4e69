// How the blocks are set: their size, rows, sashes between them and borders around them, each changed where it stands.
import {lengthSays, lengthTyped, showIn, shownIn} from './lengths.js';
import {button, either, field, make} from './make.js';
import {reshape} from './reshape.js';
import {say} from './say.js';

const kKinds = [['straight', 'Straight'], ['brick', 'Brick'], ['on point', 'On point']];
const kFillers = {'on point': 'Print of the setting triangles', brick: 'Print of the half blocks'};
const kCorners = [['butted', 'Top and bottom run across'], ['cornerstone', 'A square in each corner'], ['mitred', 'Mitred']];
const kLengthHint = '“3 1/2”, “3.5” or “8,9 cm”';

/** @param {import('./quilt.js').Quilt} quilt @param {() => void} renew draws the page anew, where only what is shown changes */
export function settingCard(quilt, renew) {
  const {setting} = quilt.file;
  const units = shownIn(quilt.file);
  const kind = setting.kind ?? 'straight';
  const whole = (words, key) => field(words, make('input', {id: `set-${key}`, type: 'number', min: 1, max: 60, value: setting[key],
    onchange: ({target}) => target.value && reshape(quilt, {[key]: Number(target.value)}, `${words}: ${target.value}.`)}));
  return [make('h2', {}, 'Measures'), either('Lengths are shown in', [['in', 'Inches'], ['cm', 'Centimetres']], units, (to) => {
    showIn(to);
    renew();
  }),
  length(quilt, 'set-block', 'A block, finished width', quilt.file.patterns[0].width,
      (typed) => typed && reshape(quilt, {block: typed}, `Blocks of ${typed}.`), kLengthHint),
  make('p', {class: 'quiet'}, 'The blocks are set'),
  either('The blocks are set', kKinds, kind, (to) => reshape(quilt, {kind: to}, `${kKinds.find(([key]) => key === to)[1]}.`)),
  whole('Rows', 'rows'), whole('Blocks in a row', 'columns'),
  kind in kFillers && printOf(quilt, 'set-filler', kFillers[kind], setting.filler, (id) => quilt.set('/setting/filler', id)),
  sashes(quilt, kind), borders(quilt)];
}

/** A length that may be left empty where there is none; `does` is told what was typed with its unit, or null. */
function length(quilt, id, words, value, does, hint) {
  return field(words, make('input', {id, type: 'text', inputmode: 'decimal', autocomplete: 'off',
    value: value === undefined ? '' : lengthSays(value, quilt.file), placeholder: value === undefined ? 'none' : null,
    onchange: ({target}) => does(target.value.trim() ? lengthTyped(target.value, shownIn(quilt.file)) : null)}), hint);
}

/** One of her prints, or none; `none` says what that means. */
function printOf(quilt, id, words, chosen, does, none = 'None yet') {
  return field(words, make('select', {id, onchange: ({target}) => does(target.value || null)}, make('option', {value: ''}, none),
      quilt.file.prints.map((print) => make('option', {value: print.id, selected: print.id === chosen}, print.name ?? print.id))));
}

function sashes(quilt, kind) {
  const {sashing} = quilt.file.setting;
  const set = (change) => quilt.set('/setting/sashing', {...sashing, ...change});
  const width = async (typed) => {
    if (await (typed ? set({width: typed}) : quilt.set('/setting/sashing', null))) say(typed ? `Sashes of ${typed}.` : 'No sashes.');
  };
  return [length(quilt, 'set-sashing', 'Sashes between the blocks, finished', sashing?.width, width, 'Leave it empty for none.'),
    sashing && [make('label', {class: 'check'}, make('input', {id: 'set-outer', type: 'checkbox', checked: Boolean(sashing.outer),
      onchange: ({target}) => set({outer: target.checked})}), 'Around the outside as well'),
    printOf(quilt, 'set-sash-print', 'Print of the sashes', sashing.print, (id) => set({print: id})),
    kind !== 'brick' && printOf(quilt, 'set-cornerstone', 'Squares where sashes meet', sashing.cornerstone, (id) => set({cornerstone: id}), 'None: the sashes run through')]];
}

/** The outermost border; another goes around it. */
function borders(quilt) {
  const all = quilt.file.setting.borders ?? [];
  const border = all.at(-1);
  const within = all.slice(0, -1);
  const set = (change) => quilt.set('/setting/borders', [...within, {...border, ...change}]);
  const width = async (typed) => {
    if (await (typed ? set({width: typed}) : quilt.set('/setting/borders', within))) say(typed ? `A border of ${typed}.` : 'That border is gone.');
  };
  return [length(quilt, 'set-border', all.length > 1 ? 'Outermost border, finished' : 'Border, finished', border?.width, width, border ? 'Leave it empty for none.' : kLengthHint),
    border && [printOf(quilt, 'set-border-print', 'Print of the border', border.print, (id) => set({print: id})),
      field('Its corners', make('select', {id: 'set-corners', onchange: ({target}) => set({corners: target.value})},
          kCorners.map(([key, words]) => make('option', {value: key, selected: key === (border.corners ?? 'butted')}, words)))),
      border.corners === 'cornerstone' && printOf(quilt, 'set-corner-print', 'Print of the corner squares', border.cornerstone, (id) => set({cornerstone: id})),
      button('Another border around it', () => quilt.set('/setting/borders', [...all, {width: border.width}]), {id: 'set-another'})]];
}

// Fabrics: photographs come in, prints are named and set right by hand.
import {get, of, post, upload} from './ask.js';
import {labOf} from './colour.js';
import {inHand} from './in_hand.js';
import {outline} from './outline.js';
import {button, field, fill, listed, make, many, sentences} from './make.js';
import {inchesTyped, lengthSays, lengthTyped, nearlySays, shownIn} from './lengths.js';
import {swatch} from './prints_panel.js';
import {kThisPage} from './quilt.js';
import {askFor, say} from './say.js';
import {finished} from './work.js';

const kWays = [['none', 'Every way'], ['stripe', 'In stripes'], ['one-way', 'One way up']];
const kUsualWay = {stripe: 90, 'one-way': 270};  // degrees, clockwise from along x: down and up the cloth

/** @param {import('./quilt.js').Quilt} quilt */
export async function fabricsView(quilt) {
  const {cloth: sold} = await get('/library');
  const away = new AbortController();
  const coming = make('ul', {class: 'coming', 'aria-label': 'Photographs on their way'});
  const prints = make('ul', {class: 'fabrics'});
  const heading = make('h2', {});
  const short = make('p', {class: 'warn', role: 'status'});
  let renewed = 0;
  const across = make('input', {type: 'text', inputmode: 'decimal', autocomplete: 'off', placeholder: shownIn(quilt.file) === 'in' ? '8 1/2' : '21,5'});
  const fills = make('input', {type: 'checkbox', id: 'fills-photograph'});
  const take = (files) => bringIn(quilt, [...files], coming,
      {across: across.value.trim() && lengthTyped(across.value, shownIn(quilt.file)), whole: fills.checked});

  function renew() {
    const list = quilt.top.prints;
    heading.textContent = list.length ? many(list.length, 'print', 'prints') : 'No prints yet';
    const {open, held} = unfinished(prints);
    fill(prints, list.map((print, index) => fabric(quilt, print, index, sold)));
    goOn(prints, open, held);
    markShort(++renewed);
  }

  /** Which prints their cloth in hand is not enough for, once that is reckoned, if nothing has changed meanwhile. */
  async function markShort(turn) {
    const found = await get(of(quilt.name, 'short')).catch(() => ({short: []}));
    if (turn !== renewed) return;
    const all = found.short.map((id) => quilt.print(id)?.name ?? id);
    const names = all.length > 7 ? [...all.slice(0, 6), `${all.length - 6} more prints`] : all;
    short.textContent = names.length ? `The cloth in hand is not enough for ${listed(names)}: “Reckon the cloth” under Sheets says what is missing.` : '';
    for (const id of found.short) {
      prints.querySelector(`[data-print="${CSS.escape(id)}"] .value`)?.after(make('p', {class: 'warn short'}, 'Its cloth in hand is not enough.'));
    }
  }
  quilt.addEventListener('top', renew, {signal: away.signal});
  renew();
  const element = make('div', {class: 'page'}, make('h1', {}, 'Fabrics'), intake(quilt, take, across, fills), coming, heading, short, prints);
  return {element, close: () => away.abort()};
}

/** What stands open in the list, by print, and which of its fields is being filled in: whoever sets one thing right goes on to the next. */
function unfinished(list) {
  const cards = [...list.querySelectorAll('.fabric')];
  const here = document.activeElement?.closest('.fabric');
  const fields = here && [...here.querySelectorAll(kFilledIn)];
  return {open: cards.filter((card) => card.querySelector('details').open).map((card) => card.dataset.print),
    held: here && {print: here.dataset.print, field: fields.indexOf(document.activeElement)}};
}
const kFilledIn = 'input, select, summary, button';

function goOn(list, open, held) {
  for (const card of list.querySelectorAll('.fabric')) {
    card.querySelector('details').open = open.includes(card.dataset.print);
    if (held?.print === card.dataset.print) card.querySelectorAll(kFilledIn)[held.field]?.focus({preventScroll: true});
  }
}

/** Camera, library, drag and drop. */
function intake(quilt, take, across, fills) {
  const source = (words, more) => {
    const input = make('input', {type: 'file', accept: 'image/*,.heic,.heif', class: 'hidden-file', tabindex: -1, 'aria-hidden': 'true', ...more,
      onchange: () => {
        take(input.files);
        input.value = '';
      }});
    return [button(words, () => input.click(), {class: 'main'}), input];
  };
  const place = make('section', {class: 'card intake', 'aria-label': 'Bring photographs in',
    ondragover: (event) => {
      event.preventDefault();
      place.classList.add('over');
    },
    ondragleave: () => place.classList.remove('over'),
    ondrop: (event) => {
      event.preventDefault();
      place.classList.remove('over');
      take(event.dataTransfer.files);
    }},
  make('p', {}, 'Lay the fabrics flat in even daylight, one or many to a photograph, a little apart. A white sheet of paper beside them makes the colours true.'),
  make('div', {class: 'row'}, source('Photograph a fabric', {capture: 'environment', 'data-from': 'camera'}),
      source('Choose photographs', {multiple: true, 'data-from': 'library'})),
  make('div', {class: 'row'}, button('Use a telephone as the camera', () => invite(quilt)), button('No photograph: a colour', () => typed(quilt))),
  field('Each piece measures from left to right', across, 'If you know: it makes the motifs true to size. “8 1/2”, “8.5” or “21,5 cm” will do.'),
  make('label', {class: 'check', for: fills.id}, fills, 'The cloth fills the frame of each photograph: its edges are not looked for'),
  make('p', {class: 'hint'}, 'Or drop photographs here.'));
  return place;
}

/** A fabric of one colour, or one that lies in the shop still. */
async function typed(quilt) {
  const name = make('input', {type: 'text', required: true, maxlength: 60, autocomplete: 'off'});
  const colour = make('input', {type: 'color', value: '#3a6ea5'});
  const asked = await askFor('A fabric without a photograph', [field('Its name', name), field('Its colour', colour, 'As you see it from across the room.')], 'Take it in',
      {read: () => ({name: name.value.trim(), colour: colour.value, by: kThisPage})});
  if (!asked) return;
  try {
    await post(of(quilt.name, 'prints'), asked);
    await quilt.read();
    say(`${asked.name} is among the fabrics.`);
  } catch (error) {
    say(error.message);
  }
}

/** A code that lets one telephone in, where the program was started for it. */
async function invite(quilt) {
  try {
    const {address, says, code} = await post('/telephone', {quilt: quilt.name});
    await askFor('A telephone as the camera', [
      make('img', {class: 'invite', src: `${code}?${Date.now()}`, alt: 'The address, as a code for a telephone to photograph'}),
      make('p', {class: 'hint'}, address), make('p', {}, says)], 'Done', {leave: false});
  } catch (error) {
    say(error.message);
  }
}

/** Each file by itself: one that is no good does not stop the others. */
async function bringIn(quilt, files, list, how) {
  const entries = files.map((file) => {
    const bar = make('progress', {max: 1, value: 0, 'aria-label': `${file.name} on its way`});
    const words = make('span', {class: 'quiet'}, 'waits');
    const entry = make('li', {}, make('strong', {}, file.name), bar, words);
    list.append(entry);
    return {file, bar, words, entry};
  });
  let found = 0;
  for (const one of entries) found += await bringOne(quilt, one, how);
  await quilt.read();
  say(`${found ? many(found, 'print', 'prints') : 'Nothing'} found in ${many(files.length, 'photograph', 'photographs')}.`);
}

async function bringOne(quilt, {file, bar, words, entry}, {across, whole}) {
  try {
    words.textContent = 'on its way';
    const asked = new URLSearchParams({name: file.name, ...(across && {across}), ...(whole && {whole: 1})});
    const run = await upload(`${of(quilt.name, 'photographs')}?${asked}`, file, (share) => (bar.value = share / 2));
    words.textContent = 'being read';
    bar.value = 0.6;
    const {answer} = await finished(quilt, run);
    bar.value = 1;
    const names = (answer.prints ?? []).map((print) => print.code).join(', ');
    words.textContent = [names && `Found: ${names}.`, sentences(answer.problems ?? []),
      ...(answer.remarks ?? []).map((says) => `${says}.`)].filter(Boolean).join('\n');
    entry.classList.add(answer.prints?.length ? 'done' : 'failed');
    return answer.prints?.length ?? 0;
  } catch (error) {
    words.textContent = error.message;
    entry.classList.add('failed');
    bar.remove();
    return 0;
  }
}

/** One print: its cloth, what it is called, what is set right by hand. */
function fabric(quilt, print, index, sold) {
  const at = `/prints/${index}`;
  const known = quilt.file.prints[index] ?? {};
  const text = (words, key, value, most) => field(words, make('input', {type: 'text', value, maxlength: most, autocomplete: 'off',
    onchange: ({target}) => target.value.trim() && quilt.set(`${at}/${key}`, target.value.trim())}));
  const upright = make('input', {type: 'checkbox', checked: print.upright, id: `upright-${index}`,
    onchange: ({target}) => quilt.set(`${at}/upright`, target.checked)});
  const colour = make('input', {type: 'color', value: print.colour, onchange: ({target}) => overrule(quilt, at, 'lab', labOf(target.value), 'The colour is')});
  const photograph = known.photo?.file && known.photo.corners;
  return make('li', {class: 'card fabric', 'data-print': print.id}, make('div', {class: 'cloth'}, swatch(quilt, print, 320), make('span', {class: 'code'}, print.code)),
      text('Name', 'name', print.name, 60), text('Code', 'code', print.code, 4),
      make('p', {class: 'quiet value'}, `Value: ${print.value}`),
      make('details', {class: 'more'}, make('summary', {}, `Set ${print.name} right`), make('div', {class: 'column'},
          make('label', {class: 'check', for: upright.id}, upright, 'It has an up: keep it upright'),
          field('Colour across the room', colour), ways(quilt, at, known),
          field('The swatch measures from left to right', make('input', {type: 'text', autocomplete: 'off', value: known.swatch_width ? lengthSays(known.swatch_width, quilt.file) : '',
            onchange: ({target}) => target.value.trim() && quilt.set(`${at}/swatch_width`, lengthTyped(target.value, shownIn(quilt.file)))})),
          inHand(quilt, at, known, sold),
          photograph && button('Outline on the photograph', () => outline(quilt, known)),
          button('Take it out of the quilt', () => takeOut(quilt, print)))));
}

/** A fabric that was photographed twice, or is not wanted. */
async function takeOut(quilt, print) {
  if (!await quilt.change({does: 'drop', value: [print.id]})) return;
  say(`${print.name} is out. Its blocks are dealt anew when you arrange them. Undo brings it back.`);
}

/** What she says of a print is never measured again. */
async function overrule(quilt, at, key, value, words) {
  const by_hand = new Set(quilt.file.prints[Number(at.split('/')[2])].features?.by_hand ?? []);
  const stored = await quilt.change({does: 'set', pointer: `${at}/features/${key}`, value},
      {does: 'set', pointer: `${at}/features/by_hand`, value: [...by_hand.add(key)]});
  if (stored) say(`${words} as you say now.`);
}

/** How its motif lies and how large it is. */
function ways(quilt, at, {features = {}}) {
  const {kind = 'none', degrees = 0} = features.direction ?? {};
  const way = make('select', {onchange: () => overrule(quilt, at, 'direction', way.value === 'none' ? {kind: 'none'} :
    {kind: way.value, degrees: kind === way.value ? degrees : kUsualWay[way.value]}, 'Its way is')},
  kWays.map(([key, words]) => make('option', {value: key, selected: key === kind}, words)));
  const scale = make('input', {type: 'text', inputmode: 'decimal', autocomplete: 'off', value: features.scale ? nearlySays(features.scale, shownIn(quilt.file)) : '',
    onchange: () => {
      const inches = inchesTyped(scale.value, shownIn(quilt.file));
      if (inches) overrule(quilt, at, 'scale', inches, 'Its motif is');
      else say('That is no length: “1 1/2”, “1.5” or “3,8 cm” will do.');
    }});
  return [field('Its print runs', way), field('Its motif measures', scale)];
}

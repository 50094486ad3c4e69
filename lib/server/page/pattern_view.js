// Pattern and size: patterns drawn with her own fabrics, sizes with the cloth they need, or a pattern of her own.
import {get} from './ask.js';
import {Cloths, greyOf, rgbOf} from './cloths.js';
import {lengthSays, nearlySays, shownIn} from './lengths.js';
import {button, either, fill, make, many} from './make.js';
import {Painter} from './painter.js';
import {ownPattern} from './pattern_grid.js';
import {reshape} from './reshape.js';
import {settingCard} from './setting_card.js';
import {work} from './work.js';

/** @param {import('./quilt.js').Quilt} quilt */
export async function patternView(quilt) {
  const away = new AbortController();
  const cloths = new Cloths(quilt.name);
  const library = await get('/library');
  const patterns = make('ul', {class: 'patterns'});
  let inTurn = quilt.top.patterns.length > 1;
  const hint = make('p', {class: 'hint', hidden: !inTurn}, 'Tap the pattern that takes turns with the first.');
  const sizes = make('div', {class: 'sizes'});
  const now = make('div', {class: 'row'});
  const measures = make('div', {class: 'card'});

  async function renew() {
    const units = shownIn(quilt.file);
    fill(now, make('p', {class: 'verdict'}, `${nearlySays(quilt.top.width, units)} × ${nearlySays(quilt.top.height, units)}`), make('p', {class: 'quiet'},
        `finished: ${quilt.top.patterns.map((p) => p.name).join(' and ')}, ${many(quilt.file.setting.rows, 'row', 'rows')} of ${quilt.file.setting.columns}`));
    refill(measures, settingCard(quilt, renew));
    drawPatterns();
    await cloths.fetch(quilt.top.prints);
    drawPatterns();
  }

  function drawPatterns() {
    fill(patterns, library.patterns.map((pattern) => {
      const mine = quilt.top.patterns.some((one) => one.id === pattern.id);
      return make('li', {}, button([sample(quilt, cloths, pattern), make('span', {}, pattern.name)], () => choose(pattern),
          {class: 'chip', 'aria-pressed': String(mine)}));
    }));
  }

  /** One pattern; or, in turn, this and the first of those that there are, one of two that is chosen again no more. */
  function choose(pattern) {
    const now = quilt.top.patterns;
    const others = now.filter((one) => one.id !== pattern.id);
    const taken = inTurn && now.length > 1 && others.length < now.length ? others : inTurn ? [...others.slice(0, 1), pattern] : [pattern];
    return reshape(quilt, {pattern: taken.map((one) => one.id)}, `${taken.map((one) => one.name).join(' and ')} it is.`);
  }

  const look = button('Reckon the sizes', async () => {
    look.disabled = true;
    fill(sizes, make('p', {class: 'quiet'}, 'Reckoning cloth for each…'));
    try {
      const {answer} = await work(quilt, 'sizes');
      fill(sizes, table(quilt, answer.sizes));
    } catch (error) {
      fill(sizes, make('p', {class: 'warn'}, error.message));
    }
    look.disabled = false;
  });

  quilt.addEventListener('top', renew, {signal: away.signal});
  await renew();
  const element = make('div', {class: 'page'}, make('h1', {}, 'Pattern and size'), now,
      make('section', {}, make('h2', {}, 'Patterns, in your fabrics'),
          make('div', {class: 'row'}, either('How many patterns', [[false, 'One pattern'], [true, 'Two in turn']], inTurn, (to) => {
            inTurn = to;
            hint.hidden = !to;
          })), hint, patterns), ownPattern(quilt),
      make('section', {class: 'two'}, make('div', {class: 'card'}, make('h2', {}, 'Sizes'), make('div', {class: 'row'}, look), sizes), measures));
  return {element, close: () => away.abort()};
}

/** Puts these in place of what a card holds, the focus where it was. */
function refill(card, children) {
  const {id, textContent} = card.contains(document.activeElement) ? document.activeElement : {};
  fill(card, children);
  if (id) document.getElementById(id)?.focus();
  else if (textContent) [...card.querySelectorAll('button')].find((one) => one.textContent === textContent)?.focus();
}

/** One block of a pattern, in the first of her prints. */
function sample(quilt, cloths, pattern) {
  const side = 132;
  const ratio = Math.min(2, devicePixelRatio || 1);
  const canvas = make('canvas', {width: side * ratio, height: side * ratio, 'aria-hidden': 'true', class: 'sample'});
  const {prints} = quilt.top;
  const slots = [...new Set(pattern.patches.map((patch) => patch.slot))];
  const spread = inContrast(prints, pattern.name.length);
  const top = {width: pattern.width, height: pattern.height, frame: [], cells: [], prints, patterns: [pattern],
    blocks: [{pattern: 0, prints: pattern.patches.map((patch) => spread(slots.indexOf(patch.slot), pattern.values[pattern.slots.indexOf(patch.slot)])), crops: pattern.patches.map(() => [0.4, 0.4])}],
    layout: {block: [], turn: []}, on_point: false};
  const scale = (side * ratio) / Math.max(pattern.width, pattern.height);
  const painter = new Painter(top, cloths, scale);
  const context = canvas.getContext('2d');
  context.scale(scale, scale);
  painter.paintBlock(context, 0, 0, [pattern.width / 2, pattern.height / 2]);
  return canvas;
}

/**
 * The print for each slot: of the value that the slot asks for, else dark, light and middle by turns, so that the pattern
 * is seen; other prints from one pattern to the next.
 */
function inContrast(prints, begin) {
  const byValue = prints.map((print, index) => ({index, value: greyOf(...rgbOf(print.colour))})).sort((a, b) => a.value - b.value);
  const cut = (share) => Math.round(share * byValue.length);
  const bands = [byValue.slice(0, cut(1 / 3)), byValue.slice(cut(2 / 3)), byValue.slice(cut(1 / 3), cut(2 / 3)), byValue].filter((band) => band.length);
  return (slot, value) => {
    const band = bands[{dark: 0, light: Math.min(1, bands.length - 1)}[value] ?? slot % Math.min(3, bands.length)];
    return band ? band[(begin + Math.floor(slot / 3)) % band.length].index : null;
  };
}

function table(quilt, sizes) {
  return make('ul', {class: 'size-list'}, sizes.map((size) => make('li', {}, make('h3', {}, size.name),
      make('p', {}, `${lengthSays(size.width, quilt.file)} × ${lengthSays(size.height, quilt.file)}, ${size.blocks} blocks (${size.rows} × ${size.columns})`),
      make('p', {class: 'quiet'}, size.says), size.note && make('p', {class: 'hint'}, size.note),
      size.caution && make('p', {class: 'warn'}, size.caution),
      button('Make it so', () => reshape(quilt, {rows: size.rows, columns: size.columns}, `${size.name}: ${size.blocks} blocks.`), {'aria-label': `Make it ${size.name}`}))));
}

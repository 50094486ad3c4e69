// Layouts kept by name, drawn beside each other, to compare and to go back to.
import {get, of, post, remove} from './ask.js';
import {button, either, field, fill, make, many} from './make.js';
import {panel} from './panel.js';
import {saidHere, say} from './say.js';

/** The layout that lies on the top now has no name. */
const kNow = {name: null};

export function layoutsPanel(view) {
  const {quilt} = view;
  const list = make('ul', {class: 'kept-layouts'});
  const name = make('input', {type: 'text', maxlength: 40, autocomplete: 'off', required: true});
  const compare = button('See them side by side', () => sideBySide(quilt, all));
  const form = make('form', {onsubmit: keep}, field('Keep this layout as', name), make('button', {}, 'Keep it'));
  let all = [];

  async function keep(event) {
    event.preventDefault();
    const asked = name.value.trim();
    if (await attempt(() => post(of(quilt.name, 'layouts'), {name: asked}), `Kept as ${asked}.`)) name.value = '';
  }

  async function attempt(does, words) {
    let done = true;
    try {
      done = (await does()) !== false;
      if (done) say(words);
    } catch (error) {
      done = false;
      say(error.message);
    }
    look();
    return done;
  }

  async function look() {
    const {layouts} = await get(of(quilt.name, 'layouts')).catch(() => ({layouts: []}));
    if (view.away.signal.aborted) return;
    const {touch, corner, F} = quilt.standing;
    all = [{...kNow, touch: touch.count, corner: corner.count, F}, ...layouts];
    compare.hidden = layouts.length === 0;
    fill(list, layouts.map((one) => make('li', {}, picture(quilt, one, 160), make('div', {class: 'column'}, make('strong', {}, one.name),
        make('p', {class: 'quiet'}, standing(one)), make('span', {class: 'row'},
            button('Lay it so', () => attempt(() => quilt.change({does: 'lay', value: one.name}), `Laid as ${one.name}.`)),
            button('Forget', () => attempt(() => remove(of(quilt.name, 'layouts', one.name)), `${one.name} is forgotten.`),
                {class: 'plain', 'aria-label': `Forget ${one.name}`}))))));
  }

  return {element: panel('Layouts kept', false, list, make('div', {class: 'row'}, compare), form), renew: look, stood: look};
}

function standing({touch, corner, F, problems}) {
  if (problems?.length) return 'It does not fit the quilt any more.';
  return `${many(touch, 'touch', 'touches')}, ${corner} at corners${Number.isFinite(F) ? `, score ${F.toFixed(3)}` : ''}`;
}

function picture(quilt, {name, problems}, width, grey = false) {
  if (problems?.length) return make('span', {class: 'drawn'});
  const asked = new URLSearchParams({width, v: quilt.version, ...(name && {layout: name}), ...(grey && {grey: 1})});
  const drawn = make('img', {class: 'drawn', alt: '', loading: 'lazy', src: `${of(quilt.name, 'picture.png')}?${asked}`});
  drawn.style.aspectRatio = `${quilt.top.width} / ${quilt.top.height}`;
  return drawn;
}

/** All of them large, in cloth or in values, the one that lies best said in words. */
function sideBySide(quilt, layouts) {
  const fit = layouts.filter((one) => !one.problems?.length);
  const better = (a, b) => a.touch - b.touch || a.F - b.F;
  const best = fit.find((one) => fit.every((other) => other === one || better(one, other) < 0));  // none where two are as good
  const grid = make('div', {class: 'beside'});
  const draw = (grey) => fill(grid, fit.map((one) => make('figure', {}, picture(quilt, one, 640, grey),
      make('figcaption', {}, make('strong', {}, one.name ?? 'As it lies now'), make('p', {class: 'quiet'}, standing(one)),
          one === best && make('p', {}, 'Lies best of these.')))));
  const box = make('dialog', {class: 'wide', 'aria-labelledby': 'beside-title', onclose: () => box.remove()},
      make('div', {class: 'row'}, make('h2', {id: 'beside-title'}, 'Layouts side by side'),
          either('How they are shown', [[false, 'Cloth'], [true, 'Values']], false, draw)), grid,
      make('div', {class: 'row end foot'}, button('Done', () => box.close())), saidHere());
  draw(false);
  document.body.append(box);
  box.showModal();
}

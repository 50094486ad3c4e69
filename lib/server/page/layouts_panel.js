// Layouts kept by name, to compare and to go back to.
import {get, of, post, remove} from './ask.js';
import {button, field, fill, make} from './make.js';
import {panel} from './panel.js';
import {say} from './say.js';

export function layoutsPanel(view) {
  const {quilt} = view;
  const list = make('ul', {class: 'kept-layouts'});
  const name = make('input', {type: 'text', maxlength: 40, autocomplete: 'off', required: true});
  const form = make('form', {onsubmit: keep}, field('Keep this layout as', name), make('button', {}, 'Keep it'));

  async function keep(event) {
    event.preventDefault();
    await attempt(() => post(of(quilt.name, 'layouts'), {name: name.value.trim()}), `Kept as ${name.value.trim()}.`);
    name.value = '';
  }

  async function attempt(does, words) {
    try {
      await does();
      say(words);
    } catch (error) {
      say(error.message);
    }
    look();
  }

  async function look() {
    const {layouts} = await get(of(quilt.name, 'layouts')).catch(() => ({layouts: []}));
    if (view.away.signal.aborted) return;
    const now = quilt.standing;
    fill(list, layouts.length ? [row('As it lies now', {touch: now.touch.count, corner: now.corner.count, F: now.F}), layouts.map((one) =>
      row(one.name, one, [
        button('Lay it so', () => attempt(() => quilt.change({does: 'lay', value: one.name}), `Laid as ${one.name}.`)),
        button('Forget', () => attempt(() => remove(of(quilt.name, 'layouts', one.name)), `${one.name} is forgotten.`), {class: 'plain', 'aria-label': `Forget ${one.name}`}),
      ]))] : []);
  }

  return {element: panel('Layouts kept', false, list, form), renew: look, stood: () => look()};
}

function row(name, {touch, corner, F, problems}, buttons = []) {
  return make('li', {}, make('strong', {}, name), make('span', {class: 'quiet'}, problems?.length ? 'does not fit the quilt any more' :
    `${touch} touches, ${corner} at corners${Number.isFinite(F) ? `, score ${F.toFixed(3)}` : ''}`), make('span', {class: 'row'}, buttons));
}

// Elements, made in one call.

/**
 * An element with attributes and children. A key that begins with "on" is a listener; a value of false, null or
 * undefined leaves its attribute out; texts become text, never markup.
 * @param {string} tag
 * @param {Record<string, any>} [attributes]
 * @param {...(Node|string|number|null|undefined|false|Array)} children
 */
export function make(tag, attributes = {}, ...children) {
  const element = document.createElement(tag);
  for (const [key, value] of Object.entries(attributes)) {
    if (value === false || value === null || value === undefined) continue;
    if (key.startsWith('on')) element.addEventListener(key.slice(2), value);
    else if (key in kProperties) element[key] = value;
    else element.setAttribute(key, value === true ? '' : value);
  }
  add(element, children);
  return element;
}

const kProperties = {value: 1, checked: 1, disabled: 1, indeterminate: 1};

export function add(element, children) {
  for (const child of children.flat(9)) {
    if (child === false || child === null || child === undefined) continue;
    element.append(child instanceof Node ? child : String(child));
  }
  return element;
}

/** Puts these in place of whatever the element holds. */
export function fill(element, ...children) {
  element.replaceChildren();
  return add(element, children);
}

export function button(words, does, more = {}) {
  return make('button', {type: 'button', onclick: does, ...more}, words);
}

/** A labelled field. `input` is the element that is filled in. */
export function field(words, input, hint) {
  const id = input.id || `field-${++fields}`;
  input.id = id;
  if (hint) input.setAttribute('aria-describedby', `${id}-hint`);
  return make('div', {class: 'field'}, make('label', {for: id}, words), input,
      hint && make('p', {class: 'hint', id: `${id}-hint`}, hint));
}
let fields = 0;

/** One of several, as a row of buttons of which one is pressed. */
export function either(words, choices, chosen, does) {
  const buttons = choices.map(([key, label]) => button(label, () => choose(key), {'aria-pressed': String(key === chosen)}));
  function choose(key) {
    choices.forEach(([other], k) => buttons[k].setAttribute('aria-pressed', String(other === key)));
    does(key);
  }
  return make('div', {class: 'either', role: 'group', 'aria-label': words}, buttons);
}

/** Calls `does` once nothing has called it for a while. */
export function settled(milliseconds, does) {
  let timer = 0;
  return (...what) => {
    clearTimeout(timer);
    timer = setTimeout(() => does(...what), milliseconds);
  };
}

const kNumbers = ['no', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

/** "three touches", "one touch", "No touches" is the caller's to begin large. */
export function counted(number, one, many) {
  return `${kNumbers[number] ?? number} ${number === 1 ? one : many}`;
}

/** "Kelp, Buoy and Foghorn" */
export const listed = (names) => (names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`);

/** "1 block", "63 blocks": in figures, for facts and lists. */
export const many = (number, one, more) => `${number} ${number === 1 ? one : more}`;

/** What the program says of a thing, as sentences of their own; of a quilt's file with the place in it. The page has no options to type. */
export const sentences = (problems) => problems.filter(({says}) => says).map(({file, at, says}) => {
  const place = placeIn(file, at);
  const words = says.replace(/ \(--[a-z-]+\)/g, '');
  return place + (place ? words : large(words)) + (/[.!?]$/.test(words) ? '' : '.');
}).join(' ');

/** "quilt.json, /prints/3/id: ", or the line and letter where it is no JSON; nothing of what is no quilt's file. */
function placeIn(file = '', at = '') {
  if (at && /(^|\/)quilt\.json$/.test(file)) return `quilt.json, ${at}: `;
  const [, line, letter] = at.match(/(?:^|\/)quilt\.json:(\d+):(\d+)$/) ?? [];
  return line ? `quilt.json, line ${line}, letter ${letter}: ` : '';
}

export const large = (text) => text.charAt(0).toUpperCase() + text.slice(1);

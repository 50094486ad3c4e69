// The guide, as `farflung help` prints it: topics, and one of them to read.
import {get} from './ask.js';
import {make} from './make.js';

export async function guideView(name) {
  const {topics} = await get('/guide');
  const topic = topics.find((one) => one.name === name) ?? topics[0];
  const links = topics.map((one) => make('li', {}, make('a', {class: 'button', href: `#/guide/${one.name}`,
    'aria-current': one === topic ? 'page' : false}, one.title)));
  return {element: make('div', {class: 'page guide'}, make('nav', {'aria-label': 'Topics of the guide'}, make('ul', {class: 'topics'}, links)),
      make('article', {}, make('h1', {}, topic.title), topic.text.split(/\n\n+/).map(paragraph)))};
}

/** Paragraphs, lists of "- ", and what is typed, set in by four spaces. */
function paragraph(text) {
  if (text.startsWith('    ')) return make('pre', {tabindex: 0}, text.replace(/^ {4}/gm, '').trimEnd());
  const items = text.split(/^- /m);
  if (items.length === 1) return make('p', {}, typed(text));
  return [items[0].trim() && make('p', {}, typed(items[0])), make('ul', {}, items.slice(1).map((item) => make('li', {}, typed(item))))];
}

const typed = (text) => text.split('`').map((part, k) => k % 2 ? make('code', {}, part) : part);

// The guide, as `farflung help` prints it: topics, and one of them to read.
import {get} from './ask.js';
import {make} from './make.js';

export async function guideView(name) {
  const {topics} = await get('/guide');
  const topic = topics.find((one) => one.name === name) ?? topics[0];
  const links = topics.map((one) => make('li', {}, make('a', {class: 'button', href: `#/guide/${one.name}`,
    'aria-current': one === topic ? 'page' : false}, one.title)));
  return {element: make('div', {class: 'page guide'}, make('nav', {'aria-label': 'Topics of the guide'}, make('ul', {class: 'topics'}, links)),
      make('article', {}, make('h1', {}, topic.title), topic === topics[0] && onThisPage(), topic.text.split(/\n\n+/).map(paragraph)))};
}

const kWay = [['Fabrics', 'photograph them; give each a name'], ['Choose', 'let the prints be chosen that go best together, or skip it'],
  ['Pattern and size', 'see every pattern in your own fabrics'], ['The top', 'have the blocks arranged; tap two to swap them'],
  ['The wall', 'photograph what hangs, and hear what differs'], ['Sheets', 'print the plan, or sew from the screen']];

/** The way through for whoever never types a command. */
function onThisPage() {
  return [make('p', {}, 'On this page the steps stand at the head of each quilt, and any can be gone to at any time:'),
    make('ol', {}, kWay.map(([step, words]) => make('li', {}, make('strong', {}, step), `: ${words}.`))),
    make('p', {}, 'Every change is kept as it is made, and Undo takes it back. The same by commands, for those who like to type:')];
}

/** Paragraphs, lists of "- ", and what is typed, set in by four spaces. */
function paragraph(text) {
  if (text.startsWith('    ')) return make('pre', {tabindex: 0}, text.replace(/^ {4}/gm, '').trimEnd());
  const items = text.split(/^- /m);
  if (items.length === 1) return make('p', {}, typed(text));
  return [items[0].trim() && make('p', {}, typed(items[0])), make('ul', {}, items.slice(1).map((item) => make('li', {}, typed(item))))];
}

const typed = (text) => text.split('`').map((part, k) => k % 2 ? make('code', {}, part) : part);

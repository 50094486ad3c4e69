// The prints: tap one to light up its copies and its closest two.
import {of} from './ask.js';
import {button, fill, make} from './make.js';
import {panel} from './panel.js';

export function printsPanel(view) {
  const {quilt, stage} = view;
  const list = make('div', {class: 'prints'});
  const about = make('p', {class: 'about', role: 'status', 'aria-live': 'polite'});

  function light(index) {
    const {marks} = stage;
    marks.print = marks.print === index ? null : index;
    marks.closest = null;
    const print = quilt.top.prints[marks.print];
    about.textContent = '';
    if (print) tell(print);
    stage.ask();
    for (const one of list.children) one.setAttribute('aria-pressed', String(Number(one.dataset.print) === marks.print));
  }

  function tell(print) {
    const known = view.checked?.prints?.find((one) => one.id === print.id);
    if (!known) return;
    const cells = (known.nearest_cells ?? []).map(([row, column]) => quilt.top.cells.findIndex((c) => c.row === row && c.column === column));
    if (cells.length === 2) stage.marks.closest = cells;
    about.textContent = `${print.name}: ${known.copies} ${known.copies === 1 ? 'copy' : 'copies'}.` + (cells.length === 2 ?
      ` The closest two, ${cells.map((cell) => quilt.cellName(cell)).join(' and ')}, lie ${known.nearest.toFixed(1)} blocks apart` +
      `${known.ideal ? `; evenly spread they would lie ${known.ideal.toFixed(1)}.` : '.'}` : '');
  }

  return {
    element: panel('Prints', true, list, about),
    renew() {
      fill(list, quilt.top.prints.map((print, index) => chip(quilt, print, () => light(index), index)));
    },
    explained() {
      const print = quilt.top.prints[stage.marks.print];
      if (print) tell(print);
      stage.ask();
    },
  };
}

/** A print as it is shown everywhere: its cloth, its code, its name. */
export function chip(quilt, print, does, index) {
  return button([swatch(quilt, print, 128), make('span', {class: 'code'}, print.code), make('span', {class: 'name'}, print.name)],
      does, {class: 'chip', 'aria-pressed': 'false', 'data-print': index});
}

export function swatch(quilt, print, longest) {
  const shown = print.swatch ?
    make('img', {class: 'swatch', alt: '', loading: 'lazy', src: `${of(quilt.name, 'swatches', print.swatch)}?longest=${longest}`}) :
    make('span', {class: 'swatch'});
  shown.style.backgroundColor = print.colour;  // until the picture is there
  return shown;
}

// The top: the quilt large, what is done to it by hand, and how it stands.
import {arrangePanel} from './arrange_panel.js';
import {get, of} from './ask.js';
import {Cloths} from './cloths.js';
import {Grid, kKeys} from './grid.js';
import {Hands} from './hands.js';
import {layoutsPanel} from './layouts_panel.js';
import {button, either, make, settled} from './make.js';
import {onPaper} from './on_paper.js';
import {partsPanel} from './parts_panel.js';
import {printsPanel} from './prints_panel.js';
import {say} from './say.js';
import {sparesPanel} from './spares_panel.js';
import {Stage} from './stage.js';
import {swapsPanel} from './swaps_panel.js';

const kLeastTold = 0.05;  // times the cast that is usual in a shuffle: less would read 0.0

/** @param {import('./quilt.js').Quilt} quilt */
export function topView(quilt) {
  return new TopView(quilt);
}

class TopView {
  constructor(quilt) {
    this.quilt = quilt;
    this.away = new AbortController();
    this.cloths = new Cloths(quilt.name);
    this.stage = new Stage(quilt, this.cloths);
    this.hands = new Hands(this.stage, {tap: (cell) => this.press(cell), swap: (a, b) => this.swap(a, b)});
    this.grid = new Grid(this.stage, {press: (cell) => this.press(cell), escape: () => this.choose(null),
      focus: () => this.showChoice(), turn: (cell) => this.turn(cell), keep: (cell) => this.keep(cell)});
    this.tools = this.makeTools();
    this.spares = sparesPanel(this);
    this.panels = [arrangePanel(this), swapsPanel(this), printsPanel(this), this.spares, layoutsPanel(this), partsPanel(this)];
    this.element = make('div', {class: 'top-view'},
        make('section', {class: 'board', 'aria-label': 'The top'}, make('div', {class: 'table'}, this.stage.element, this.makeNearness()), this.tools),
        make('aside', {class: 'workbox', 'aria-label': 'For the top'}, this.panels.map((panel) => panel.element)),
        onPaper(quilt, this.cloths, this.away.signal));
    this.renewCasts = settled(120, () => this.fetchCasts());
    this.listen();
    this.renew();
  }

  close() {
    this.away.abort();
    this.stage.close();
    this.hands.close();
    this.putDown?.();
  }

  listen() {
    const on = (kind, does) => this.quilt.addEventListener(kind, does, {signal: this.away.signal});
    on('top', () => this.renew());
    on('layout', ({detail}) => this.moved(detail));
    on('standing', () => this.stood());
    document.addEventListener('keydown', (event) => this.key(event), {signal: this.away.signal});
  }

  /** Other cells, prints or blocks. */
  async renew() {
    const {quilt} = this;
    this.stage.painter = null;
    if (this.stage.marks.chosen >= quilt.top.cells.length) this.stage.marks.chosen = null;
    this.grid.build();
    this.stage.showWhole();
    if (this.stage.size) this.stage.repaint();
    this.stood();
    for (const panel of this.panels) panel.renew?.();
    if (await this.cloths.fetch(quilt.top.prints)) this.stage.repaint();
    performance.mark('top in cloth');
  }

  moved(detail) {
    this.stage.marks.casts = null;  // they are of the layout before
    this.stage.refresh();
    if (detail?.live) return;
    this.grid.name();
    this.showChoice();
  }

  stood() {
    const {standing} = this.quilt;
    this.stage.marks.touches = standing.touch?.where ?? [];
    this.stage.ask();
    performance.mark('scored');
    this.undoButton.disabled = !standing.undo;
    this.redoButton.disabled = !standing.redo;
    this.renewCasts();
    this.showChoice();
    for (const panel of this.panels) panel.stood?.();
  }

  // What is done by hand.

  press(cell) {
    const {marks} = this.stage;
    if (this.spares.holds()) return this.spares.lay(cell);
    if (cell === null || cell === marks.chosen) return this.choose(null);
    if (marks.chosen === null) return this.choose(cell);
    this.swap(marks.chosen, cell);
  }

  choose(cell) {
    this.stage.marks.chosen = cell;
    this.stage.ask();
    this.grid.name();
    this.showChoice();
    for (const panel of this.panels) panel.chosen?.(cell);
    this.putDown?.();
    this.putDown = cell === null ? null : say(`${this.quilt.cellName(cell)} in hand. Tap another to swap them.`);
  }

  async swap(a, b) {
    const {quilt} = this;
    const {kept} = quilt.top.layout;
    if (kept[a] || kept[b]) {
      this.choose(null);
      return say(`${quilt.cellName(kept[a] ? a : b)} is kept in place. Free it first.`);
    }
    this.stage.marks.chosen = null;
    const whole = quilt.isSewn(a) || quilt.isSewn(b) ? ', with all that is sewn there' : '';
    if (await quilt.swap(a, b)) say(`${quilt.cellName(a)} and ${quilt.cellName(b)} have changed places${whole}. ${touchWords(quilt)}`);
  }

  async turn(cell) {
    if (cell === null) return;
    if (await this.quilt.turn(cell)) say(`${this.quilt.cellName(cell)} turned. ${touchWords(this.quilt)}`);
  }

  async keep(cell) {
    if (cell === null) return;
    const kept = !this.quilt.top.layout.kept[cell];
    if (await this.quilt.keep([cell], kept)) say(`${this.quilt.cellName(cell)} ${kept ? 'is kept in place' : 'is free to move'}.`);
  }

  key(event) {
    const typing = event.target.closest?.('input, textarea, select, dialog');
    if (!(event.ctrlKey || event.metaKey) || typing) return;
    const key = event.key.toLowerCase();
    if (key !== 'z' && key !== 'y') return;
    event.preventDefault();
    this.step(key === 'y' || event.shiftKey);
  }

  async step(onward) {
    if (await (onward ? this.quilt.redo() : this.quilt.undo())) say(onward ? 'Done again.' : 'Undone.');
  }

  // The tools under the top.

  makeTools() {
    const {stage} = this;
    const chosen = () => stage.marks.chosen;
    this.undoButton = button('Undo', () => this.step(false), {'aria-keyshortcuts': 'Control+Z'});
    this.redoButton = button('Redo', () => this.step(true), {'aria-keyshortcuts': 'Control+Shift+Z'});
    this.turnButton = button('Turn it', () => this.turn(chosen()));
    this.keepButton = button('Keep it here', () => this.keep(chosen()));
    this.choice = make('p', {class: 'choice'});
    const looks = either('How the fabrics are shown', [['cloth', 'Cloth'], ['grey', 'Values'], ['squint', 'Squint'], ['casts', 'Casts']], 'cloth',
        (look) => this.show(look));
    const codes = button('Codes', () => {
      stage.look.codes = !stage.look.codes;
      codes.setAttribute('aria-pressed', String(stage.look.codes));
      stage.repaint();
    }, {'aria-pressed': 'false'});
    return make('div', {class: 'tools'}, this.choice,
        make('div', {class: 'row'}, this.undoButton, this.redoButton, this.turnButton, this.keepButton),
        make('div', {class: 'row'}, looks, codes));
  }

  /** Over the stage's corner, so that they take nothing from it where the top leaves it free. */
  makeNearness() {
    const {stage} = this;
    stage.corner = make('div', {class: 'nearness', role: 'group', 'aria-label': 'How near the top is seen'},
        button('+', () => stage.zoom(1.5), {'aria-label': 'Closer'}), button('−', () => stage.zoom(1 / 1.5), {'aria-label': 'Further'}),
        button('All of it', () => stage.showWhole()));
    return stage.corner;
  }

  show(look) {
    const {stage} = this;
    stage.look.grey = look === 'grey';
    stage.look.squint = look === 'squint';
    stage.look.casts = look === 'casts';
    stage.marks.casts = null;
    stage.repaint();
    if (stage.look.casts) this.fetchCasts();
    else this.showChoice();
  }

  /** How the regions lean, by the program's own reckoning. */
  async fetchCasts() {
    if (!this.stage.look.casts) return;
    const casts = await get(of(this.quilt.name, 'casts')).catch(() => null);
    if (!casts || !this.stage.look.casts || this.away.signal.aborted) return;
    this.stage.marks.casts = casts;
    this.stage.ask();
    this.showChoice();
  }

  castWords(cell) {
    const one = this.stage.marks.casts?.casts.find((each) => each.cell === cell);
    if (!one) return '';
    if (one.strength < kLeastTold) return ' The region around it leans no way that could be seen.';
    return ` The region around it is ${one.leans} than the whole, ${one.strength.toFixed(1)} times what is usual in a shuffle.`;
  }

  sewnWords(cell) {
    const others = this.quilt.together(cell).filter((other) => other !== cell);
    return others.length ? ` Sewn to ${others.map((other) => this.quilt.cellName(other)).join(', ')}: they move as one.` : '';
  }

  hint() {
    const {casts} = this.stage.marks;
    if (this.stage.cells.querySelector(':focus-visible')) return kKeys;
    if (!casts) return 'Tap a block, then tap another: they change places.';
    const strongest = casts.casts.toSorted((a, b) => b.strength - a.strength)[0];
    if (!strongest || strongest.strength < kLeastTold) return 'No region leans any way that could be seen.';
    return `Each region in its own colour, stretched. Around ${this.quilt.cellName(strongest.cell)} it is ${strongest.leans} than the whole: ` +
      `${strongest.strength.toFixed(1)} times what is usual in a shuffle.`;
  }

  showChoice() {
    const {chosen} = this.stage.marks;
    const {quilt} = this;
    const none = chosen === null;
    const kept = !none && quilt.top.layout.kept[chosen];
    this.turnButton.disabled = none || kept;
    this.keepButton.disabled = none;
    this.keepButton.textContent = kept ? 'Let it move' : 'Keep it here';
    this.choice.textContent = none ? this.hint() :
      `${quilt.cellName(chosen)}: ${quilt.printsOf(chosen).map((print) => `${print.name} (${print.code})`).join(', ')}.${this.sewnWords(chosen)}${this.castWords(chosen)}`;
  }
}

export function touchWords(quilt) {
  const count = quilt.standing.touch?.count ?? 0;
  return count === 0 ? 'No print touches itself.' : `${count} ${count === 1 ? 'touch' : 'touches'} left.`;
}

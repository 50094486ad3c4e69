// One quilt as this page knows it: what there is to draw, how it stands, and every change on its way to the program.
import {get, Lost, of, post, Refused} from './ask.js';
import {Pending} from './pending.js';

/** Names this page among those that look at a quilt. */
export const kThisPage = Math.random().toString(36).slice(2, 10);

/**
 * Tells by events: "top" (other cells, prints or blocks), "layout" (other places), "standing" (touches, score, history),
 * "progress" and "run" (long work), "lost" and "back" (the program), "refused" (a change that could not be made).
 */
export class Quilt extends EventTarget {
  /** @param {string} name */
  constructor(name) {
    super();
    this.name = name;
    this.standing = null;
    this.said = '';
    this.file = null;
    this.top = null;
    this.lost = false;
    this.pending = new Pending(name);
    this.sending = Promise.resolve();
    this.news = null;
  }

  tell(kind, detail) {
    this.dispatchEvent(new CustomEvent(kind, {detail}));
  }

  async open() {
    await this.read();
    this.listen();
    if (this.pending.size) this.send();
  }

  close() {
    this.news?.close();
    clearTimeout(this.again);
  }

  /** Everything anew. */
  async read() {
    const [whole, top] = await Promise.all([get(of(this.name)), get(of(this.name, 'top'))]);
    this.file = whole.quilt;
    this.top = top;
    this.stand(whole);
    this.runs = whole.runs ?? [];
    this.tell('top');
    this.tell('standing');
  }

  /** Everything anew once what was changed is there: the file does not follow each move. */
  async readSent() {
    await this.sending;
    await this.read();
  }

  /** Takes in how the quilt stands now. */
  stand(answer) {
    this.standing = answer;
    if (answer.layout) this.top.layout = answer.layout;
  }

  get version() {
    return this.standing?.version ?? '';
  }

  cellName(cell) {
    return this.top.cells[cell].name;
  }

  printsOf(cell) {
    const block = this.top.blocks[this.top.layout.block[cell]];
    return block ? [...new Set(block.prints)].filter((p) => p !== null).map((p) => this.top.prints[p]) : [];
  }

  print(id) {
    return this.top.prints.find((one) => one.id === id);
  }

  // Changes.

  /** The cells whose blocks move with that of a cell: itself, and all that it is sewn to. */
  together(cell) {
    const {sewn} = this.top.layout;
    return sewn[cell] === null ? [cell] : [...sewn.keys()].filter((other) => sewn[other] === sewn[cell]);
  }

  isSewn(cell) {
    return this.top.layout.sewn[cell] !== null;
  }

  /** Two blocks change places; seen at once, sent beside. Where one is sewn to others the program says what moves. */
  swap(a, b) {
    const {block, turn, kept} = this.top.layout;
    if (a === b || kept[a] || kept[b]) return Promise.resolve(false);
    if (!this.isSewn(a) && !this.isSewn(b)) {
      [block[a], block[b]] = [block[b], block[a]];
      [turn[a], turn[b]] = [turn[b], turn[a]];
      this.tell('layout', {cells: [a, b]});
    }
    return this.change({does: 'swap', cells: [this.cellName(a), this.cellName(b)]});
  }

  turn(cell) {
    const {block, turn, kept} = this.top.layout;
    if (block[cell] === null || kept[cell]) return Promise.resolve(false);
    if (!this.isSewn(cell)) {
      const turns = this.top.patterns[this.top.blocks[block[cell]].pattern].turns;
      turn[cell] = turns[(turns.indexOf(turn[cell]) + 1) % turns.length];
      this.tell('layout', {cells: [cell]});
    }
    return this.change({does: 'turn', cells: [this.cellName(cell)]});
  }

  keep(cells, kept) {
    for (const cell of cells) this.top.layout.kept[cell] = kept;
    this.tell('layout', {cells});
    return this.change({does: kept ? 'keep' : 'free', cells: cells.map((cell) => this.cellName(cell))});
  }

  set(pointer, value) {
    return this.change({does: 'set', pointer, value});
  }

  undo() {
    return this.change({does: 'undo'});
  }

  redo() {
    return this.change({does: 'redo'});
  }

  /** One change or several that belong together; true once it is stored. */
  change(...edits) {
    this.pending.add(edits);
    return this.send();
  }

  send() {
    this.sending = this.sending.then(() => this.sendAll());
    return this.sending;
  }

  async sendAll() {
    let stored = true;
    while (this.pending.size) {
      const {edits, on} = this.pending.first();
      try {
        // On its way before, its answer lost: where the version is another now it was made, and must not be made twice.
        if (on && on !== this.version) {
          this.pending.taken();
          continue;
        }
        this.pending.sent(this.version);
        await this.sendOne(edits);
        this.pending.taken();
      } catch (error) {
        if (error instanceof Lost) {
          this.lose();
          return false;
        }
        this.pending.taken();
        stored = false;
        await this.read().catch(() => {});
        this.tell('refused', {says: error.message, stale: error.status === 409, edits: error.edits});
      }
    }
    return stored;
  }

  async sendOne(edits) {
    const same = {version: this.version, by: kThisPage};
    const moves = edits.every((edit) => ['swap', 'turn', 'keep', 'free'].includes(edit.does));
    try {
      const answer = await post(of(this.name, 'edits'), {...same, edits});
      this.said = answer.says;  // what the last change did, in words
      this.stand(answer);
    } catch (error) {
      if (error instanceof Refused) error.edits = edits;
      throw error;
    }
    if (moves) {
      this.tell('layout', {cells: null});
    } else {
      await this.read();
    }
    this.tell('standing');
  }

  // What the program tells.

  listen() {
    this.news?.close();
    const news = new EventSource(of(this.name, 'events'));
    this.news = news;
    const on = (kind, does) => news.addEventListener(kind, (event) => does(JSON.parse(event.data)));
    on('hello', (told) => this.greeted(told));
    on('version', (told) => this.versionTold(told));
    on('layout', (told) => this.layoutTold(told));
    on('progress', (told) => this.tell('progress', told));
    on('run', (told) => this.tell('run', told));
    on('gone', (told) => this.tell('gone', told));
    news.onerror = () => this.lose();
  }

  async greeted(told) {
    const was = this.lost;
    this.lost = false;
    if (was) this.tell('back');
    for (const run of told.runs ?? []) if (run.state === 'running') this.tell('progress', run);
    if (told.version !== this.version) {
      if (this.pending.size) this.tell('moved-on');
      await this.read().catch(() => this.lose());
    }
    if (this.pending.size) this.send();
  }

  async versionTold(told) {
    if (told.by === kThisPage || told.version === this.version) return;
    await this.sending;
    if (told.version === this.version) return;
    await this.read().catch(() => this.lose());
    if (told.says) this.tell('elsewhere', told);
  }

  /** While the program arranges: the layout of the moment. */
  layoutTold(told) {
    if (!told.layout) return;
    this.top.layout = told.layout;
    if (told.prints) told.prints.forEach((prints, block) => (this.top.blocks[block].prints = prints));
    this.tell('layout', {cells: null, live: true});
  }

  lose() {
    if (!this.lost) {
      this.lost = true;
      this.tell('lost');
    }
    clearTimeout(this.again);
    this.again = setTimeout(() => this.news?.readyState === EventSource.CLOSED && this.listen(), 1500);
  }
}

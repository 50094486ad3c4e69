// Changes that the program has not confirmed yet, in order; they outlive a reload.

export class Pending {
  /** @param {string} quilt */
  constructor(quilt) {
    this.key = `pending ${quilt}`;
    this.list = read(this.key);
  }

  get size() {
    return this.list.length;
  }

  first() {
    return this.list[0];
  }

  add(edits) {
    this.list.push({edits});
    this.store();
  }

  /** The first is on its way, on this version. */
  sent(version) {
    this.list[0].on = version;
    this.store();
  }

  taken() {
    this.list.shift();
    this.store();
  }

  store() {
    try {
      if (this.list.length) localStorage.setItem(this.key, JSON.stringify(this.list));
      else localStorage.removeItem(this.key);
    } catch { /* a browser without storage: they live as long as the page */ }
  }
}

function read(key) {
  try {
    return JSON.parse(localStorage.getItem(key) ?? '[]');
  } catch {
    return [];
  }
}

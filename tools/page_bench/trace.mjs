// Chromium's own trace of what a page did: when input arrived, scripts ran, frames were drawn. Times are milliseconds.

const kCategories = ['devtools.timeline', 'disabled-by-default-devtools.timeline.frame', 'blink.user_timing', 'disabled-by-default-devtools.timeline', 'loading'];

/** Runs `does` and gives the trace of it. */
export async function traced(browser, page, does) {
  await browser.startTracing(page, {categories: kCategories});
  try {
    await does();
  } finally {
    var bytes = await browser.stopTracing();
  }
  return new Trace(JSON.parse(bytes.toString()).traceEvents);
}

export class Trace {
  constructor(events) {
    this.events = events.filter((one) => one.ts).map((one) => ({...one, at: one.ts / 1000, length: (one.dur ?? 0) / 1000})).sort((a, b) => a.at - b.at);
    this.frames = this.named('DrawFrame').map((one) => one.at);
  }

  named(name) {
    return this.events.filter((one) => one.name === name);
  }

  /** The page's own marks of that name. */
  marks(name) {
    return this.events.filter((one) => one.cat.includes('blink.user_timing') && one.name === name).map((one) => one.at);
  }

  /** When events of that kind were handed to the page. */
  inputs(type) {
    return this.named('EventDispatch').filter((one) => one.args.data?.type === type).map((one) => one.at);
  }

  /** When the page asked for a frame and drew on the top's canvas in it. */
  drawings() {
    const scripts = this.named('FunctionCall').filter((one) => one.args.data?.url?.endsWith('/stage.js'));
    return this.named('FireAnimationFrame').filter((frame) => scripts.some((one) => one.at >= frame.at && one.at <= frame.at + frame.length))
        .map((one) => one.at);
  }

  /** The first frame on screen of what was drawn after a moment. */
  shownAfter(at) {
    const drawn = this.drawings().find((one) => one >= at);
    return drawn === undefined ? undefined : this.frames.find((one) => one > drawn);
  }

  /** How long scripts, layout and painting took of the page's thread between two moments, by name. */
  busy(from, to) {
    const sums = {};
    for (const one of this.events) {
      if (one.ph !== 'X' || one.at < from || one.at > to) continue;
      sums[one.name] = (sums[one.name] ?? 0) + one.length;
    }
    return sums;
  }
}

export function quantile(values, share) {
  const sorted = values.toSorted((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))];
}

// The fabrics as the canvas needs them: each swatch at the size at which it is drawn, in colour and in grey.
import {of} from './ask.js';

const kSent = 512;

export class Cloths {
  /** @param {string} quilt */
  constructor(quilt) {
    this.quilt = quilt;
    this.pictures = new Map();
    this.sized = new Map();
  }

  /** Fetches what is not there yet. @returns {Promise<boolean>} whether anything new came */
  async fetch(prints) {
    const missing = prints.filter((print) => print.swatch && !this.pictures.has(print.swatch));
    await Promise.all(missing.map(async (print) => {
      const picture = new Image();
      picture.src = `${of(this.quilt, 'swatches', print.swatch)}?longest=${kSent}`;
      try {
        await picture.decode();
        this.pictures.set(print.swatch, picture);
      } catch { /* drawn in its colour */ }
    }));
    return missing.length > 0;
  }

  forget() {
    this.pictures.clear();
    this.sized.clear();
  }

  /** The swatch at so many pixels to the inch, null where it has none. */
  at(print, pixelsPerInch, grey) {
    const picture = this.pictures.get(print.swatch);
    if (!picture) return null;
    const width = Math.max(8, Math.min(picture.naturalWidth, Math.round(print.swatch_width * pixelsPerInch)));
    const key = `${print.swatch} ${width} ${grey}`;
    if (!this.sized.has(key)) this.sized.set(key, drawn(picture, width, grey));
    return this.sized.get(key);
  }
}

function drawn(picture, width, grey) {
  const height = Math.max(8, Math.round((width * picture.naturalHeight) / picture.naturalWidth));
  const canvas = new OffscreenCanvas(width, height);
  const context = canvas.getContext('2d');
  context.imageSmoothingQuality = 'high';
  context.drawImage(picture, 0, 0, width, height);
  if (grey) {
    const pixels = context.getImageData(0, 0, width, height);
    toGrey(pixels.data);
    context.putImageData(pixels, 0, 0);
  }
  return canvas;
}

const kLinear = Float32Array.from({length: 256}, (_, k) => {
  const v = k / 255;
  return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
});

const encoded = (v) => 255 * (v <= 0.0031308 ? 12.92 * v : 1.055 * v ** (1 / 2.4) - 0.055);

/** Greys of the same luminance, sRGB (IEC 61966-2-1). */
function toGrey(data) {
  for (let k = 0; k < data.length; k += 4) {
    data[k] = data[k + 1] = data[k + 2] = greyOf(data[k], data[k + 1], data[k + 2]);
  }
}

/** "#3a6ea5" as three bytes. */
export const rgbOf = (hex) => [1, 3, 5].map((k) => parseInt(hex.slice(k, k + 2), 16));

export const greyOf = (r, g, b) => Math.round(encoded(0.2126 * kLinear[r] + 0.7152 * kLinear[g] + 0.0722 * kLinear[b]));

/** A print's own colour "#3a6ea5", or the grey of its luminance. */
export function plain(print, grey) {
  if (!grey) return print.colour;
  const v = greyOf(...rgbOf(print.colour));
  return `rgb(${v} ${v} ${v})`;
}

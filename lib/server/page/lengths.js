// Lengths as they are read and typed: eighths of an inch, or centimetres to the millimetre, as she likes; the file keeps
// its own units.

const kEighths = ['', ' 1/8', ' 1/4', ' 3/8', ' 1/2', ' 5/8', ' 3/4', ' 7/8'];
const kInches = {in: 1, cm: 1 / 2.54, mm: 1 / 25.4};

/** What lengths are shown in: her choice, else the quilt's own. */
export const shownIn = (file) => localStorage.getItem('lengths') ?? (file.units === 'in' ? 'in' : 'cm');

export const showIn = (units) => localStorage.setItem('lengths', units);

export function inchesSay(inches, units) {
  if (units !== 'in') return `${Math.round(inches * 25.4) / 10} cm`;
  const eighths = Math.round(inches * 8);
  if (Math.abs(eighths / 8 - inches) > 1e-4) return `${Math.round(inches * 1000) / 1000} in`;
  return `${`${Math.floor(eighths / 8) || ''}${kEighths[eighths % 8]}`.trim() || 0} in`;
}

/** What nobody cuts by, a motif that was measured or a finished top: to the eighth of an inch, or to the millimetre. */
export const nearlySays = (inches, units) => inchesSay(units === 'in' ? Math.max(1, Math.round(inches * 8)) / 8 : inches, units);

/** A length of a quilt's file: a number in its units, or a text that says its own. */
export function lengthSays(length, file, units = shownIn(file)) {
  return typeof length === 'string' ? length : inchesSay(length * kInches[file.units], units);
}

/** Inches of what she typed, "1 1/2", "1.5" or "3,8 cm"; null where that is no length. */
export function inchesTyped(text, units) {
  const [, whole, over, under, decimal, unit] = text.trim().match(/^(?:(?:(\d+)\s+)?(?:(\d+)\/(\d+))|(\d+(?:[.,]\d+)?))\s*(in|"|″|cm|mm)?$/i) ?? [];
  if (decimal === undefined && under === undefined) return null;
  const number = decimal !== undefined ? Number(decimal.replace(',', '.')) : Number(whole ?? 0) + Number(over) / Number(under);
  const inches = number * (kInches[(unit ?? units).toLowerCase()] ?? 1);
  return Number.isFinite(inches) && inches > 0 ? Math.round(inches * 1000) / 1000 : null;
}

/** What she typed, with the unit that she meant where she named none; the program reads it. */
export function lengthTyped(text, units) {
  const typed = text.trim();
  return /[a-z"″]/i.test(typed) ? typed : `${typed} ${units}`;
}

// The cloth of a print that is there already: fat quarters, and lengths off the bolt.
import {field, make} from './make.js';
import {inchesSay, lengthSays, lengthTyped, shownIn} from './lengths.js';

const kQuarter = 'fat quarter';
const kOffTheBolt = 'yardage';

/**
 * The fields that say so. What else the file has of this print, charm squares or another length, stays as it is.
 * @param {{inches: object[], metric: object[]}} sold  how shops sell cloth, as the library has it
 */
export function inHand(quilt, at, {cloth = []}, sold) {
  const ofKind = (kind) => cloth.filter((one) => one.kind === kind);
  const [length] = ofKind(kOffTheBolt);
  const units = shownIn(quilt.file);
  const [measured] = ofKind(kQuarter);
  const store = (kinds, next) => quilt.set(`${at}/cloth`, [...cloth.filter((one) => !kinds.includes(one)), ...next]);

  /** A piece of it as the file has one: its usable size, as she measures. */
  function piece(kind) {
    const {usable_width: width, usable_length: long} = sold[units === 'in' ? 'inches' : 'metric'].find((one) => one.kind === kind);
    return {kind, width: inchesSay(width, units), ...(long && {length: inchesSay(long, units)})};
  }

  const quarters = make('input', {type: 'number', min: 0, max: 99, value: ofKind(kQuarter).reduce((sum, one) => sum + (one.count ?? 1), 0) || '',
    onchange: () => {
      const count = Math.max(0, Math.round(Number(quarters.value)));
      store(ofKind(kQuarter), count ? [{...piece(kQuarter), ...measured, count}] : []);
    }});
  const bolt = make('input', {type: 'text', inputmode: 'decimal', autocomplete: 'off', value: length ? lengthSays(length.length, quilt.file) : '',
    onchange: () => store(length ? [length] : [], bolt.value.trim() ? [{...piece(kOffTheBolt), length: lengthTyped(bolt.value, units === 'in' ? 'yd' : 'm'), count: 1}] : [])});
  return [field('Fat quarters in hand', quarters), field('Off the bolt in hand, so long', bolt, units === 'in' ? '“1 1/2 yd” or “22 in”' : '“0,5 m” or “60 cm”')];
}

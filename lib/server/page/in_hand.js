// The cloth of a print that is there already: pieces as they are most often sold, and lengths off the bolt.
import {field, large, make} from './make.js';
import {inchesSay, lengthSays, lengthTyped, shownIn} from './lengths.js';

/**
 * The fields that say so. What else the file has of this print, charm squares or another length, stays as it is.
 * @param {{inches: object[], metric: object[]}} sold  how shops sell cloth, as the library has it
 */
export function inHand(quilt, at, {cloth = []}, sold) {
  const units = shownIn(quilt.file);
  const kinds = sold[units === 'in' ? 'inches' : 'metric'];
  const usual = kinds.find((one) => one.usable_length);
  const offTheBolt = kinds.find((one) => !one.usable_length);
  const ofKind = ({kind}) => cloth.filter((one) => one.kind === kind);
  const [length] = ofKind(offTheBolt);
  const [measured] = ofKind(usual);
  const store = (kinds, next) => quilt.set(`${at}/cloth`, [...cloth.filter((one) => !kinds.includes(one)), ...next]);

  /** A piece of it as the file has one: its usable size, as she measures. */
  function piece({kind, usable_width: width, usable_length: long}) {
    return {kind, width: inchesSay(width, units), ...(long && {length: inchesSay(long, units)})};
  }

  const pieces = make('input', {type: 'number', min: 0, max: 99, value: ofKind(usual).reduce((sum, one) => sum + (one.count ?? 1), 0) || '',
    onchange: () => {
      const count = Math.max(0, Math.round(Number(pieces.value)));
      store(ofKind(usual), count ? [{...piece(usual), ...measured, count}] : []);
    }});
  const bolt = make('input', {type: 'text', inputmode: 'decimal', autocomplete: 'off', value: length ? lengthSays(length.length, quilt.file) : '',
    onchange: () => store(length ? [length] : [], bolt.value.trim() ? [{...piece(offTheBolt), length: lengthTyped(bolt.value, units === 'in' ? 'yd' : 'm'), count: 1}] : [])});
  return [field(`${large(usual.many)} in hand`, pieces), field(`${large(offTheBolt.many)} in hand, so long`, bolt, units === 'in' ? '“1 1/2 yd” or “22 in”' : '“0,5 m” or “60 cm”')];
}

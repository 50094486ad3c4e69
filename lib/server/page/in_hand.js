// The cloth of a print that is there already: fat quarters, and lengths off the bolt.
import {field, make} from './make.js';
import {lengthSays, lengthTyped, shownIn} from './lengths.js';

const kQuarter = {kind: 'fat quarter'};
const kQuarterUsable = {yd: {width: '20 in', length: '17 1/2 in'}, m: {width: '50 cm', length: '48.5 cm'}};  // selvage and crooked ends off
const kOffTheBolt = {kind: 'yardage', count: 1};
const kBoltWidth = {yd: '40 in', m: '100 cm'};  // usable, as the yardage is counted

/** The fields that say so. What else the file has of this print, charm squares or another length, stays as it is. */
export function inHand(quilt, at, {cloth = []}) {
  const ofKind = ({kind}) => cloth.filter((one) => one.kind === kind);
  const [length] = ofKind(kOffTheBolt);
  const units = shownIn(quilt.file) === 'in' ? 'yd' : 'm';
  const store = (kinds, next) => quilt.set(`${at}/cloth`, [...cloth.filter((one) => !kinds.includes(one)), ...next]);

  const quarters = make('input', {type: 'number', min: 0, max: 99, value: ofKind(kQuarter).reduce((sum, one) => sum + (one.count ?? 1), 0) || '',
    onchange: () => {
      const count = Math.max(0, Math.round(Number(quarters.value)));
      const [measured] = ofKind(kQuarter);
      store(ofKind(kQuarter), count ? [{...kQuarter, ...kQuarterUsable[units], ...measured, count}] : []);
    }});
  const yards = make('input', {type: 'text', inputmode: 'decimal', autocomplete: 'off', value: length ? lengthSays(length.length, quilt.file) : '',
    onchange: () => store(length ? [length] : [], yards.value.trim() ? [{...kOffTheBolt, width: kBoltWidth[units], length: lengthTyped(yards.value, units)}] : [])});
  return [field('Fat quarters in hand', quarters), field('Off the bolt in hand, so long', yards, units === 'yd' ? '“1 1/2 yd” or “22 in”' : '“0,5 m” or “60 cm”')];
}

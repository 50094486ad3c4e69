// The cloth of a print that is there already: pieces of every kind that shops sell, lengths off the bolt, odd pieces.
import {button, field, large, make} from './make.js';
import {inchesSay, inchesTyped, lengthSays, lengthTyped, shownIn} from './lengths.js';
import {say} from './say.js';

/**
 * The fields that say so: of the most usual kind, of those the file has of this print, and of any other that is asked for.
 * @param {{inches: object[], metric: object[]}} sold  how shops sell cloth, as the library has it
 */
export function inHand(quilt, at, {cloth = []}, sold) {
  const units = shownIn(quilt.file);
  const kinds = sold[units === 'in' ? 'inches' : 'metric'];
  const ofKind = ({kind}) => cloth.filter((one) => one.kind === kind);
  const pieces = kinds.filter((kind) => kind.usable_length);
  const offTheBolt = kinds.find((kind) => !kind.usable_length);
  const onBolts = ofKind(offTheBolt);
  const odd = [...onBolts.slice(1), ...cloth.filter((one) => !kinds.some(({kind}) => kind === one.kind))];
  const shown = pieces.filter((kind, place) => place === 0 || ofKind(kind).length);

  /** Puts `next` where `old` stood in the file, or at its end. */
  function store(old, next) {
    const place = old.length ? cloth.indexOf(old[0]) : cloth.length;
    return quilt.set(`${at}/cloth`, [...cloth.slice(0, place), ...next, ...cloth.slice(place).filter((one) => !old.includes(one))]);
  }

  /** A piece of it as the file has one: its usable size, as she measures. */
  function piece({kind, usable_width: width, usable_length: long}) {
    return {kind, width: inchesSay(width, units), ...(long && {length: inchesSay(long, units)})};
  }

  function counted(kind) {
    const known = ofKind(kind);
    const input = make('input', {type: 'number', min: 0, max: 999, value: known.reduce((sum, one) => sum + (one.count ?? 1), 0) || '',
      onchange: () => {
        const count = Math.max(0, Math.round(Number(input.value)));
        store(known, count ? [{...piece(kind), ...known[0], count}] : []);
      }});
    return field(`${large(kind.many)} in hand`, input);
  }

  function byLength(words, known) {
    const input = make('input', {type: 'text', inputmode: 'decimal', autocomplete: 'off', value: known.length ? lengthSays(known[0].length, quilt.file) : '',
      onchange: () => store(known, input.value.trim() ? [{...piece(offTheBolt), length: lengthTyped(input.value, units === 'in' ? 'yd' : 'm'), count: 1}] : [])});
    return field(words, input, units === 'in' ? '“1 1/2 yd” or “22 in”' : '“0,5 m” or “60 cm”');
  }

  /** A piece that no shop sells so, by its usable size. */
  function oddPiece() {
    const input = make('input', {type: 'text', autocomplete: 'off',
      onchange: () => {
        const [across, along, ...others] = input.value.split(/[x×]/i);
        if (others.length || !inchesTyped(across ?? '', units) || !inchesTyped(along ?? '', units)) return say('That is no size: “12 x 20 1/2” will do.');
        return store([], [{kind: 'scrap', width: lengthTyped(across, units), length: lengthTyped(along, units), count: 1}]);
      }});
    return field('A piece so wide and long', input, 'Without selvage and frayed edges, its length along the selvage: “12 x 20 1/2”');
  }

  /** The file may leave out what the kind says. */
  const widthOf = (one) => one.width ?? piece(kinds.find(({kind}) => kind === one.kind)).width;
  const oddOnes = odd.map((one) => make('p', {class: 'row'},
      `${large(one.kind || 'piece')}, ${lengthSays(widthOf(one), quilt.file)} × ${lengthSays(one.length, quilt.file)}${one.count > 1 ? `, ${one.count} of them` : ''}`,
      button('Used up', () => store([one], []))));

  const others = pieces.filter((kind) => !shown.includes(kind)).map((kind) => [kind.many, () => counted(kind)]);
  if (onBolts.length) others.push(['another length off the bolt', () => byLength('Another length off the bolt', [])]);
  others.push(['a piece of another size', oddPiece]);
  const another = make('select', {onchange: () => {
    const [, fieldOf] = others[another.value];
    const more = fieldOf();
    another.closest('.field').before(more);
    another.selectedOptions[0].remove();
    another.value = '';
    more.querySelector('input').focus();
  }}, make('option', {value: ''}, 'Choose'), others.map(([words], place) => make('option', {value: place}, large(words))));

  const length = byLength(`${large(offTheBolt.many)} in hand, so long`, onBolts.slice(0, 1));
  return [shown.map(counted), length, oddOnes, field('Another kind in hand', another)];
}

// Four corners over a picture, dragged by finger or moved by arrows.
import {make} from './make.js';
import {broughtNearer} from './nearer.js';

const kSvg = 'http://www.w3.org/2000/svg';

const kReach = 30;  // pixels from a corner that still take hold of it: as far as .knob::before reaches

/**
 * Drawn small, so that the cloth under a corner is seen; a touch takes hold of the corner that is nearest to it. Beside the corners a finger
 * scrolls, once the picture was brought nearer; arrows go the finer then.
 * @param {HTMLImageElement | HTMLCanvasElement} picture
 * @param {{label: string, corners: number[][]}[]} shapes  corners as shares of the picture, clockwise from the top left
 */
export function cornersOver(picture, shapes, changed = () => {}) {
  const svg = document.createElementNS(kSvg, 'svg');
  svg.setAttribute('viewBox', '0 0 1 1');
  svg.setAttribute('preserveAspectRatio', 'none');
  svg.setAttribute('aria-hidden', 'true');
  let held = null;
  let last = null;  // the corner that was laid last: what is looked at
  const over = make('div', {class: 'over-picture',
    onpointerdown: (event) => {
      held = nearest(event);
      if (!held) return;
      over.setPointerCapture(event.pointerId);
      last = held;
      held.knob.focus();
      event.preventDefault();  // nothing else takes the focus from it
    },
    onpointermove: (event) => {
      if (!held || !over.hasPointerCapture(event.pointerId)) return;
      const box = over.getBoundingClientRect();
      held.moveTo((event.clientX - held.beside[0] - box.left) / box.width, (event.clientY - held.beside[1] - box.top) / box.height);
    }}, picture, svg);
  const outlines = shapes.map((shape) => {
    const polygon = document.createElementNS(kSvg, 'polygon');
    svg.append(polygon);
    return {shape, polygon};
  });
  const handles = shapes.flatMap((shape) => shape.corners.map((_, k) => handle(shape, k)));
  over.append(...handles.map(({knob}) => knob));
  const near = broughtNearer(over, picture, looked);

  /** The corner that was laid last; before that all of them, or one where they lie too far apart to be seen together. */
  function looked(seen) {
    if (last) return last.at();
    const points = shapes.flatMap(({corners}) => corners);
    const apart = [0, 1].map((k) => Math.max(...points.map((point) => point[k])) - Math.min(...points.map((point) => point[k])));
    return apart.some((far, k) => far > seen[k]) ? points[0] : middleOf(points);
  }

  /** The corner within reach that is nearest, and how far beside it the finger lies: that stays so while it is dragged. */
  function nearest(event) {
    const box = over.getBoundingClientRect();
    const closest = handles.map((one) => {
      const [x, y] = one.at();
      const beside = [event.clientX - box.left - x * box.width, event.clientY - box.top - y * box.height];
      return {...one, beside, far: Math.hypot(...beside)};
    }).sort((a, b) => a.far - b.far)[0];
    return closest?.far <= kReach ? closest : null;
  }

  function handle(shape, k) {
    const names = ['top left', 'top right', 'bottom right', 'bottom left'];
    const knob = make('button', {type: 'button', class: 'knob', 'aria-label': `${shape.label}, ${names[k]} corner; arrows move it`,
      onkeydown: (event) => {
        const step = (event.shiftKey ? 0.02 : 0.003) / near.times();
        const by = {ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step]}[event.key];
        if (!by) return;
        event.preventDefault();
        moveTo(shape.corners[k][0] + by[0], shape.corners[k][1] + by[1]);
        knob.scrollIntoView({block: 'nearest', inline: 'nearest'});
        last = one;
      }});
    const one = {knob, moveTo, at: () => shape.corners[k]};
    function moveTo(x, y) {
      shape.corners[k] = [Math.min(1, Math.max(0, x)), Math.min(1, Math.max(0, y))];
      place();
      draw();
      changed(shape);
    }
    function place() {
      knob.style.left = `${100 * shape.corners[k][0]}%`;
      knob.style.top = `${100 * shape.corners[k][1]}%`;
    }
    place();
    return one;
  }

  function draw() {
    for (const {shape, polygon} of outlines) polygon.setAttribute('points', shape.corners.map((point) => point.join()).join(' '));
  }
  draw();
  return near.element;
}

const middleOf = (points) => [0, 1].map((k) => points.reduce((sum, point) => sum + point[k], 0) / points.length);

// Four corners over a picture, dragged by finger or moved by arrows.
import {make} from './make.js';

const kSvg = 'http://www.w3.org/2000/svg';

/**
 * @param {HTMLImageElement | HTMLCanvasElement} picture
 * @param {{label: string, corners: number[][]}[]} shapes  corners as shares of the picture, clockwise from the top left
 */
export function cornersOver(picture, shapes, changed = () => {}) {
  const svg = document.createElementNS(kSvg, 'svg');
  svg.setAttribute('viewBox', '0 0 1 1');
  svg.setAttribute('preserveAspectRatio', 'none');
  svg.setAttribute('aria-hidden', 'true');
  const over = make('div', {class: 'over-picture'}, picture, svg);
  const outlines = shapes.map((shape) => {
    const polygon = document.createElementNS(kSvg, 'polygon');
    svg.append(polygon);
    over.append(...shape.corners.map((_, k) => handle(shape, k)));
    return {shape, polygon};
  });

  function handle(shape, k) {
    const names = ['top left', 'top right', 'bottom right', 'bottom left'];
    const knob = make('button', {type: 'button', class: 'knob', 'aria-label': `${shape.label}, ${names[k]} corner; arrows move it`,
      onpointerdown: (event) => knob.setPointerCapture(event.pointerId),
      onpointermove: (event) => {
        if (!knob.hasPointerCapture(event.pointerId)) return;
        const box = over.getBoundingClientRect();
        moveTo((event.clientX - box.left) / box.width, (event.clientY - box.top) / box.height);
      },
      onkeydown: (event) => {
        const step = event.shiftKey ? 0.02 : 0.003;
        const by = {ArrowLeft: [-step, 0], ArrowRight: [step, 0], ArrowUp: [0, -step], ArrowDown: [0, step]}[event.key];
        if (!by) return;
        event.preventDefault();
        moveTo(shape.corners[k][0] + by[0], shape.corners[k][1] + by[1]);
      }});
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
    return knob;
  }

  function draw() {
    for (const {shape, polygon} of outlines) polygon.setAttribute('points', shape.corners.map((point) => point.join()).join(' '));
  }
  draw();
  return over;
}

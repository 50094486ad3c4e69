// How the top lies, and arranging it, seen live.
import {get, of} from './ask.js';
import {button, either, fill, large, counted, make, settled} from './make.js';
import {panel} from './panel.js';
import {say} from './say.js';
import {waits} from './waits.js';
import {stop, work} from './work.js';

const kEfforts = [['0.3', 'Quick'], ['1', 'Usual'], ['4', 'Long']];

export function arrangePanel(view) {
  const {quilt} = view;
  const state = make('div', {class: 'standing'});
  const words = make('div', {class: 'explained'});
  const bar = make('progress', {max: 1, value: 0, 'aria-label': 'Arranging'});
  const line = make('p', {class: 'falling', role: 'status', 'aria-live': 'polite'});
  const trace = make('canvas', {class: 'trace', width: 560, height: 110, 'aria-hidden': 'true'});
  const stopButton = button('Stop here', () => running && stop(quilt, running), {class: 'main'});
  const going = make('div', {class: 'going', hidden: true}, line, trace, bar, stopButton);
  const start = button('Arrange the blocks', arrange, {class: 'main'});
  let effort = '1';
  let running = null;
  let scores = [];
  const asking = make('div', {class: 'column'}, make('div', {}, start), make('p', {class: 'hint'}, 'Takes:'),
      either('How long to arrange', kEfforts, effort, (chosen) => (effort = chosen)));

  async function arrange() {
    scores = [];
    show(true);
    try {
      const run = await work(quilt, 'arrange', {effort: Number(effort), seed: 1 + Math.floor(Math.random() * 1e6)});
      if (run.state === 'stopped') say('Stopped. The top lies as it did before.');
      else say(run.words.split('\n')[0]);
    } catch (error) {
      say(error.message);
    }
    show(false);
    await quilt.read();
  }

  function show(on) {
    going.hidden = !on;
    asking.hidden = on;
    running = on ? running : null;
    if (on) line.textContent = 'Beginning…';
  }

  function progress({detail}) {
    if (detail.does !== 'arrange') return;
    if (going.hidden) show(true);
    running = detail.id;
    bar.value = detail.done;
    if (detail.F === undefined) return;
    line.textContent = `${large(counted(detail.touch, 'touch', 'touches'))}, score ${detail.F.toFixed(3)}`;
    scores.push([detail.done, detail.F]);
    drawTrace(trace, scores);
  }
  quilt.addEventListener('progress', progress, {signal: view.away.signal});
  quilt.addEventListener('run', ({detail}) => detail.does === 'arrange' && show(false), {signal: view.away.signal});

  const explain = settled(500, async () => {
    const checked = await get(of(quilt.name, 'check')).catch(() => null);
    if (!checked || view.away.signal.aborted) return;
    view.checked = checked;
    fill(words, explained(checked, quilt));
    for (const one of view.panels) one.explained?.(checked);
  });

  return {element: panel('How it lies', true, state, going, asking, words), stood() {
    const {touch, corner, F} = quilt.standing;
    const count = touch?.count ?? 0;
    const before = waits(quilt);
    asking.hidden = !going.hidden || !quilt.top.prints.length;
    if (before) {
      fill(state, make('p', {class: 'verdict'}, before.stands), make('p', {}, before.says, '.'));
      fill(words);
      return;
    }
    fill(state, make('p', {class: count ? 'verdict warn' : 'verdict'}, large(counted(count, 'touch', 'touches'))),
        make('p', {}, corner?.count ? `${large(counted(corner.count, 'corner', 'corners'))} where a print meets itself` : 'No print meets itself at a corner'),
        Number.isFinite(F) && make('p', {class: 'quiet'}, `Score ${F.toFixed(3)}, less is better`));
    explain();
  }};
}

function explained(checked, quilt) {
  const cast = checked.explained?.cast;
  const beats = Math.floor((checked.beats ?? 0) * 10_000);
  return [
    make('p', {}, `Beats ${beats.toLocaleString('en')} of 10,000 shuffles.`),
    cast?.says && make('p', {}, cast.says),
    checked.bound?.says && make('p', {}, checked.bound.says),
    (checked.problems ?? []).map((problem) => make('p', {class: 'warn'}, problem.says)),
  ];
}

/** The score as it falls. */
function drawTrace(canvas, scores) {
  const context = canvas.getContext('2d');
  const {width, height} = canvas;
  const values = scores.map((one) => one[1]);
  const [least, most] = [Math.min(...values), Math.max(...values)];
  context.clearRect(0, 0, width, height);
  context.strokeStyle = getComputedStyle(canvas).color;
  context.lineWidth = 5;
  context.lineJoin = 'round';
  context.beginPath();
  for (const [done, F] of scores) {
    context.lineTo(4 + done * (width - 8), 6 + (height - 12) * (1 - (F - least) / Math.max(most - least, 1e-9)));
  }
  context.stroke();
}

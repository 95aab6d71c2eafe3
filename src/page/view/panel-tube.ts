import type { SceneData, SceneTube } from '../../export/book/scene-data.js';
import { type Controls, controlId, group, labelledSelect, setChoices, spoken } from './controls.js';
import { button, element } from './element.js';
import { markOf } from './palette.js';
import { shownAngle, shownArea, shownLength } from './shown-number.js';
import type { TubePlace } from './tube-place.js';
import type { View } from './view-contract.js';

/** Which tube is lit, its pieces and joints, and the slider along it. */
export function tubeControls(view: View): Controls {
  const choice = labelledSelect('Tube', (value) => view.select(value === '' ? null : value));
  const swatch = element('span', { class: 'ev-swatch', 'aria-hidden': 'true' });
  choice.node.append(swatch);
  const length = spoken('ev-large');
  const verdict = element('p', { class: 'ev-note' });
  const id = controlId();
  const slider = element('input', { id, type: 'range', min: 0, step: 'any' });
  slider.addEventListener('input', () => view.setSlider(Number(slider.value)));
  slider.addEventListener('keydown', (e) => {
    const by = STEPS[e.key];
    if (by === undefined) return;
    e.preventDefault();
    view.setSlider(Number(slider.value) + by * (e.shiftKey ? 10 : 1));
  });
  const readings = element('dl', { class: 'ev-readings', 'aria-live': 'polite' });
  const parts = element('div', { class: 'ev-parts' });
  const along = element(
    'div',
    { class: 'ev-along' },
    length,
    verdict,
    element('label', { for: id }, 'Place along the tube'),
    slider,
    readings,
    parts,
  );
  let scene: SceneData | null = null;
  let listed: SceneTube | null = null;
  return {
    node: group('Tube and place along it', choice.node, along),
    scene: (given) => {
      scene = given;
      listed = null;
      setChoices(choice.select, [['', 'none'], ...given.tubes.map((t) => [t.id, t.name] as const)]);
    },
    state: ({ selected, place }) => {
      const index = scene?.tubes.findIndex((t) => t.id === selected) ?? -1;
      const tube = scene?.tubes[index];
      choice.select.value = selected ?? '';
      along.hidden = !tube;
      swatch.hidden = !tube;
      if (!tube || !place || !scene) return;
      const { colour, pattern } = markOf(index);
      swatch.dataset.pattern = pattern;
      swatch.style.setProperty('--mark', colour);
      slider.max = String(tube.length);
      slider.value = String(place.run);
      slider.setAttribute(
        'aria-valuetext',
        `${shownLength(place.run, scene.units)} of ${shownLength(tube.length, scene.units)}`,
      );
      readings.replaceChildren(...readingsOf(place, scene.units));
      if (listed === tube) return;
      listed = tube;
      length.textContent = shownLength(tube.length, scene.units, 2);
      verdict.textContent = againstTarget(tube, scene.units);
      parts.replaceChildren(...partsOf(tube, scene.units, view));
    },
  };
}

/** What a key moves the slider by, mm; ten times as far with shift. */
const STEPS: Readonly<Record<string, number>> = {
  ArrowLeft: -1,
  ArrowDown: -1,
  ArrowRight: 1,
  ArrowUp: 1,
  PageDown: -50,
  PageUp: 50,
};

function againstTarget({ length, target, tolerance, collector, inlet }: SceneTube, units: 'mm' | 'in'): string {
  const off = length - target;
  const from =
    Math.abs(off) < 0.005
      ? 'on target'
      : `${shownLength(Math.abs(off), units, 2)} ${off > 0 ? 'over' : 'under'} target`;
  return `${from}, ${shownLength(tolerance, units, 2)} spread allowed; to inlet ${inlet} of ${collector}`;
}

function readingsOf(place: TubePlace, units: 'mm' | 'in'): HTMLElement[] {
  const rows: readonly (readonly [string, string, string])[] = [
    ['run', 'Running length', shownLength(place.run, units)],
    ['area', 'Area of the bore', shownArea(place.area, units)],
    ['outer', 'Radius outside', shownLength(place.outerRadius, units, 2)],
    ['inner', 'Radius inside', shownLength(place.innerRadius, units, 2)],
    [
      'bend',
      'Way',
      place.bend ? `bend of ${shownAngle(place.bend.angle)}, CLR ${shownLength(place.bend.clr, units)}` : 'straight',
    ],
    ['height', 'Height (y)', shownLength(place.point[1], units)],
    ['piece', 'Piece', place.piece ?? 'in the flange'],
  ];
  return rows.flatMap(([name, title, text]) => [element('dt', {}, title), element('dd', { 'data-value': name }, text)]);
}

function partsOf(tube: SceneTube, units: 'mm' | 'in', view: View): HTMLElement[] {
  const go = (name: string, at: number, title: string): HTMLElement =>
    element(
      'li',
      {},
      button(name, () => view.setSlider(at), { 'aria-label': `${title} ${name}, go to ${shownLength(at, units)}` }),
    );
  return [
    element('h4', {}, 'Pieces'),
    element('ul', {}, ...tube.pieces.map((p) => go(p.name, (p.from + p.to) / 2, 'piece'))),
    element('h4', {}, 'Joints'),
    element('ul', {}, ...tube.joints.map((j) => go(j.name, j.at, 'joint'))),
  ];
}

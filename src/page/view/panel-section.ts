import type { SceneData } from '../../export/book/scene-data.js';
import { type Controls, controlId, group, labelledSelect, setChoices, spoken } from './controls.js';
import { element } from './element.js';
import { shownLength } from './shown-number.js';
import { pathOf, stationAt } from './tube-path.js';
import type { Section, View } from './view-contract.js';

const AXES: readonly (readonly [value: string, text: string])[] = [
  ['', 'none'],
  ['x', 'across the crank (x)'],
  ['y', 'level (y)'],
  ['z', 'along the head face (z)'],
];

/** A plane that opens the picture, moved by a slider. */
export function sectionControls(view: View): Controls {
  const axis = labelledSelect('Plane', () => apply());
  setChoices(axis.select, AXES);
  const id = controlId();
  const offset = element('input', { id, type: 'range', step: 1 });
  offset.addEventListener('input', () => apply());
  const otherId = controlId();
  const other = element('input', { id: otherId, type: 'checkbox' });
  other.addEventListener('change', () => apply());
  const said = spoken();
  const how = element(
    'div',
    {},
    element('label', { for: id }, 'Offset'),
    offset,
    said,
    element('div', { class: 'ev-check' }, other, element('label', { for: otherId }, 'Keep the other side')),
  );
  let scene: SceneData | null = null;
  const apply = (): void => {
    const chosen = axis.select.value;
    if (chosen === '' || !scene) {
      view.setSection(null);
      return;
    }
    const next = chosen as Section['axis'];
    const [low, high] = rangeOf(scene, next);
    const at = next === view.state().section?.axis ? Number(offset.value) : Math.round((low + high) / 2);
    view.setSection({ axis: next, offset: at, keep: other.checked ? 'above' : 'below' });
  };
  return {
    node: group('Section', axis.node, how),
    scene: (given) => {
      scene = given;
    },
    state: ({ section }) => {
      axis.select.value = section?.axis ?? '';
      how.hidden = section === null;
      if (!section || !scene) return;
      const [low, high] = rangeOf(scene, section.axis);
      offset.min = String(Math.floor(Math.min(low, section.offset)));
      offset.max = String(Math.ceil(Math.max(high, section.offset)));
      offset.value = String(section.offset);
      other.checked = section.keep === 'above';
      said.textContent = `${section.axis} = ${shownLength(section.offset, scene.units)}`;
      offset.setAttribute('aria-valuetext', said.textContent);
    },
  };
}

/** From where to where tubes reach along an axis, mm. */
function rangeOf({ tubes }: SceneData, axis: Section['axis']): readonly [number, number] {
  const k = { x: 0, y: 1, z: 2 }[axis];
  const values = tubes.flatMap((t) => {
    const path = pathOf(t);
    const radius = Math.max(...t.sections.map((s) => s.od)) / 2;
    const at = Array.from({ length: 41 }, (_, i) => stationAt(path, (t.length * i) / 40).point[k]!);
    return [Math.min(...at) - radius, Math.max(...at) + radius];
  });
  return [Math.min(...values), Math.max(...values)];
}

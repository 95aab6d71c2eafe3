import type { SceneData } from '../../export/book/scene-data.js';
import { type Controls, group, spoken } from './controls.js';
import { button, element } from './element.js';
import { shownLength } from './shown-number.js';
import type { View, ViewState } from './view-contract.js';

/** The distance of two points pressed in the picture, or of two places of the slider for those who use the keys. */
export function measureControls(view: View): Controls {
  const onOff = button('Pick two points', () => view.setMeasuring(!view.state().measuring), {
    'aria-pressed': 'false',
  });
  const clear = button('Clear', () => {
    from = null;
    view.clearMeasurement();
  });
  let from: readonly [number, number, number] | null = null;
  const fromHere = button('From the slider\u2019s place', () => {
    from = view.state().place?.point ?? null;
    said.textContent = from ? 'First point taken: move the slider or choose another tube.' : 'Choose a tube first.';
  });
  const toHere = button('To the slider\u2019s place', () => {
    const to = view.state().place?.point;
    if (from && to) view.measure(from, to);
    else said.textContent = 'Take the first point before.';
  });
  const said = spoken();
  let scene: SceneData | null = null;
  let before: ViewState['measurement'] = null;
  return {
    node: group('Measure', element('div', { class: 'ev-row' }, onOff, fromHere, toHere, clear), said),
    scene: (given) => {
      scene = given;
      from = null;
    },
    state: ({ measuring, measurement }) => {
      onOff.setAttribute('aria-pressed', String(measuring));
      if (measurement === before) return;
      before = measurement;
      said.textContent = measurement && scene ? inWords(measurement, scene.units) : '';
    },
  };
}

function inWords({ distance, from, to, within }: NonNullable<ViewState['measurement']>, units: 'mm' | 'in'): string {
  const parts = (['x', 'y', 'z'] as const).map(
    (axis, k) => `${axis} ${shownLength(Math.abs(to[k]! - from[k]!), 'mm')}`,
  );
  const error = within > 0.05 ? `, within ${within.toFixed(1)} mm` : '';
  return `${shownLength(distance, units, 2)}${error} (${parts.join(', ')})`;
}

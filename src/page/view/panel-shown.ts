import { type Controls, controlId, group } from './controls.js';
import { element } from './element.js';
import { KINDS, type ShownKind } from './palette.js';
import type { View } from './view-contract.js';

/** A box to tick for every kind there is in the scene. */
export function shownControls(view: View): Controls {
  const boxes = new Map<
    ShownKind,
    { readonly row: HTMLElement; readonly box: HTMLInputElement; readonly count: HTMLElement }
  >();
  const rows = KINDS.map(({ kind, title }) => {
    const id = controlId();
    const box = element('input', { id, type: 'checkbox', 'data-kind': kind });
    box.addEventListener('change', () => view.show(kind, box.checked));
    const count = element('span', { class: 'ev-count' });
    const row = element('div', { class: 'ev-check' }, box, element('label', { for: id }, title, ' ', count));
    boxes.set(kind, { row, box, count });
    return row;
  });
  return {
    node: group('Shown', element('div', { class: 'ev-checks' }, ...rows)),
    scene: (scene) => {
      for (const [kind, { row, count }] of boxes) {
        const n = kind === 'tube' ? scene.tubes.length : scene.solids.filter((s) => s.kind === kind).length;
        row.hidden = n === 0 && kind !== 'label';
        count.textContent = kind === 'label' ? '' : String(n);
      }
    },
    state: ({ shown }) => {
      for (const [kind, { box }] of boxes) box.checked = shown[kind];
    },
  };
}

import type { SceneData } from '../../export/book/scene-data.js';
import { element } from './element.js';
import { cameraControls } from './panel-camera.js';
import { closestControls } from './panel-closest.js';
import { measureControls } from './panel-measure.js';
import { sectionControls } from './panel-section.js';
import { shownControls } from './panel-shown.js';
import { tubeControls } from './panel-tube.js';
import type { View, ViewState } from './view.js';

/** A part of the panel: what it looks like, and what it does when the scene or what is shown of it changes. */
export interface Controls {
  readonly node: HTMLElement;
  readonly scene?: (scene: SceneData) => void;
  readonly state?: (state: ViewState) => void;
}

export interface Panel {
  readonly node: HTMLElement;
  readonly scene: (scene: SceneData) => void;
  readonly state: (state: ViewState) => void;
}

/** All controls of a view, each labelled and within reach of the keys. */
export function createPanel(view: View): Panel {
  const parts: readonly Controls[] = [
    cameraControls(view),
    tubeControls(view),
    shownControls(view),
    closestControls(view),
    measureControls(view),
    sectionControls(view),
  ];
  const node = element('div', { class: 'ev-panel', role: 'group', 'aria-label': 'Controls of the view' });
  node.append(...parts.map((p) => p.node));
  return {
    node,
    scene: (scene) => {
      for (const p of parts) p.scene?.(scene);
    },
    state: (state) => {
      for (const p of parts) p.state?.(state);
    },
  };
}

let last = 0;

/** An id of its own for a control, so that its label can name it. */
export const controlId = (): string => `ev-${++last}`;

/** A titled group of controls. */
export const group = (title: string, ...children: readonly (Node | string)[]): HTMLFieldSetElement =>
  element('fieldset', { class: 'ev-group' }, element('legend', {}, title), ...children);

/** A select with its label. */
export function labelledSelect(label: string, chosen: (value: string) => void) {
  const id = controlId();
  const select = element('select', { id });
  select.addEventListener('change', () => chosen(select.value));
  const node = element('div', { class: 'ev-field' }, element('label', { for: id }, label), select);
  return { node, select };
}

/** Puts other choices into a select and keeps what was chosen where it is still there. */
export function setChoices(
  select: HTMLSelectElement,
  choices: readonly (readonly [value: string, text: string])[],
): void {
  const kept = select.value;
  select.replaceChildren(...choices.map(([value, text]) => element('option', { value }, text)));
  if (choices.some(([value]) => value === kept)) select.value = kept;
}

/** Text that is read out when it changes. */
export const spoken = (className = 'ev-said'): HTMLOutputElement =>
  element('output', { class: className, 'aria-live': 'polite' });

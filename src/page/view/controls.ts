import type { SceneData } from '../../export/book/scene-data.js';
import { element } from './element.js';
import type { ViewState } from './view-contract.js';

/** A part of the panel: what it looks like, and what it does when the scene or what is shown of it changes. */
export interface Controls {
  readonly node: HTMLElement;
  readonly scene?: (scene: SceneData) => void;
  readonly state?: (state: ViewState) => void;
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

import type { Editable, PlanEdit } from '../../export/book/bench-data.js';
import { element } from '../view/element.js';
import { type PlanField, planFields, readValue, shownValue, unitWord } from './plan-fields.js';

export interface FieldForm {
  readonly node: HTMLElement;
  /** Shows what the plan says now; a field one types in keeps what is typed. Null closes the fields. */
  readonly set: (editable: Editable | null) => void;
}

interface Shown {
  readonly input: HTMLInputElement;
  /** As the plan has it now. */
  field: PlanField;
}

/** Fields for every number that can be changed; `changed` hears of each change at once. */
export function fieldForm(changed: (edit: PlanEdit) => void): FieldForm {
  const node = element('div', { class: 'fields' });
  let shown = new Map<string, Shown>();
  let units: Editable['units'] = 'mm';

  const typed = (id: string): void => {
    const { input, field } = shown.get(id)!;
    const value = readValue(input.value, field.of, units);
    input.setAttribute('aria-invalid', String(value === null));
    if (value !== null) changed(field.edit(value));
  };
  const build = (fields: readonly PlanField[]): void => {
    shown = new Map();
    const groups = [...new Set(fields.map((f) => f.group))];
    const open = new Set([...node.querySelectorAll('details[open]')].map((d) => d.getAttribute('data-group')));
    node.replaceChildren(
      ...groups.map((group, i) => {
        const rows = fields.filter((f) => f.group === group).map((field) => row(field));
        const body = element('div', { class: 'field-rows' }, ...rows);
        const isOpen = open.size > 0 ? open.has(group) : i < 2;
        return element('details', { open: isOpen, 'data-group': group }, element('summary', {}, group), body);
      }),
    );
  };
  const row = (field: PlanField): HTMLElement => {
    const id = `field-${field.id.replaceAll(/[^a-z0-9]+/g, '-')}`;
    const input = element('input', {
      id,
      type: 'text',
      inputmode: 'decimal',
      autocomplete: 'off',
      spellcheck: 'false',
    });
    input.addEventListener('input', () => typed(field.id));
    input.addEventListener('keydown', (e) => step(e, input, field.of, units, () => typed(field.id)));
    shown.set(field.id, { input, field });
    const unit = unitWord(field.of, units);
    const label = element('label', { for: id }, field.label);
    if (unit !== '') label.append(element('span', { class: 'unit' }, ` (${unit})`));
    return element('div', { class: 'field' }, label, input);
  };
  return {
    node,
    set: (editable) => {
      if (editable === null) {
        for (const { input } of shown.values()) input.disabled = true;
        return;
      }
      const fields = planFields(editable);
      const isSame = units === editable.units && fields.length === shown.size && fields.every((f) => shown.has(f.id));
      units = editable.units;
      if (!isSame) build(fields);
      for (const field of fields) {
        const entry = shown.get(field.id)!;
        entry.field = field;
        entry.input.disabled = false;
        if (document.activeElement === entry.input && entry.input.value !== '') continue;
        entry.input.value = shownValue(field, units);
        entry.input.setAttribute('aria-invalid', 'false');
      }
    },
  };
}

/** Arrow keys count up and down: by one millimetre or degree, a twentieth of an inch; ten times that with Shift. */
function step(
  e: KeyboardEvent,
  input: HTMLInputElement,
  of: PlanField['of'],
  units: Editable['units'],
  done: () => void,
): void {
  const way = e.key === 'ArrowUp' ? 1 : e.key === 'ArrowDown' ? -1 : 0;
  const number = Number(input.value);
  if (way === 0 || !Number.isFinite(number)) return;
  e.preventDefault();
  const by = of === 'number' ? 0.1 : of === 'length' && units === 'in' ? 0.05 : 1;
  input.value = String(Number((number + way * by * (e.shiftKey ? 10 : 1)).toFixed(5)));
  done();
}

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { placeOf, withEdit } from '../../../src/page/bench/edit-list.js';
import { planFields, readValue, shownValue } from '../../../src/page/bench/plan-fields.js';
import { planHandles } from '../../../src/page/bench/plan-handles.js';
import { applyEdits } from '../../../src/params/plan-edit/apply-edits.js';
import { type Editable, editableOf } from '../../../src/params/plan-edit/editable.js';
import type { PlanEdit } from '../../../src/params/plan-edit/plan-edit.js';
import { readPlan } from '../../../src/params/read-plan.js';
import { TEMPLATE_FOLDER } from '../../support/command.js';

const text = (name: string): string => readFileSync(`${TEMPLATE_FOLDER}${name}.yaml`, 'utf8');
function editable(plan: string): Editable {
  const read = readPlan(plan, 'plan.yaml');
  if (!read.ok) throw new Error(read.text);
  return editableOf(plan, read.plan);
}

describe.each(['inline-four', 'v8-full', 'inline-four-421'])('fields of %s', (name) => {
  const plan = text(name);
  const fields = planFields(editable(plan));
  const { units } = editable(plan);

  it('have names of their own', () => {
    expect(new Set(fields.map((f) => f.id)).size).toBe(fields.length);
    expect(new Set(fields.map((f) => `${f.group} ${f.label}`)).size).toBe(fields.length);
  });

  it('read back as they are shown, to the rounding', () => {
    for (const field of fields) {
      expect(readValue(shownValue(field, units), field.of, units)).toBeCloseTo(field.value, 3);
    }
  });

  it('each change the number they show and no other', () => {
    for (const field of fields) {
      const wanted = field.value + (field.of === 'angle' ? 0.1 : field.of === 'number' ? 0.5 : 2);
      const done = applyEdits(plan, [field.edit(wanted)]);
      const after = planFields(editable(done.ok ? done.text : ''));
      const differ = after.filter((f, i) => Math.abs(f.value - fields[i]!.value) > 1e-3);
      expect(differ.map((f) => f.id)).toEqual([field.id]);
      expect(differ[0]!.value).toBeCloseTo(wanted, 2);
    }
  });
});

describe('a typed number', () => {
  it.each([
    ['12,5', 12.5],
    [' 12.5 ', 12.5],
    ['', null],
    ['12 mm', null],
    ['1e999', null],
  ] as const)('%j is %s', (typed, value) => {
    expect(readValue(typed, 'length', 'mm')).toBe(value);
  });

  it('is inches where the plan is', () => {
    expect(readValue('2', 'length', 'in')).toBeCloseTo(50.8, 12);
    expect(readValue('2', 'angle', 'in')).toBeCloseTo(Math.PI / 90, 12);
  });
});

describe('changes not yet written', () => {
  const edit = (value: number): PlanEdit => ({ edit: 'runners', field: 'length', value });
  it('hold each place of the plan once, the latest', () => {
    const gap: PlanEdit = { edit: 'collector-gap', collector: 0, value: 3 };
    expect([edit(1), gap, edit(2)].reduce(withEdit, [])).toEqual([edit(2), gap]);
  });

  it('tell apart what is apart', () => {
    const at = [0, 0, 0] as [number, number, number];
    const edits: PlanEdit[] = [
      edit(1),
      { edit: 'runners', field: 'spread', value: 1 },
      { edit: 'secondaries', field: 'length', value: 1 },
      { edit: 'tube-clr', bend: 0, value: 1 },
      { edit: 'tube-clr', bend: 1, value: 1 },
      { edit: 'collector-at', collector: 0, at },
      { edit: 'collector-at', collector: 1, at },
      { edit: 'collector-angle', collector: 0, field: 'clocking', value: 1 },
      { edit: 'collector-angle', collector: 0, field: 'merge_half_angle', value: 1 },
      { edit: 'keep-out-at', keepOut: 0, at },
      { edit: 'route-point', cylinder: 1, point: 1, at },
      { edit: 'route-point', cylinder: 1, point: 2, at },
      { edit: 'take-route', cylinder: 1, inlet: 1, points: [at, at], clr: [] },
    ];
    expect(new Set(edits.map(placeOf)).size).toBe(edits.length);
  });
});

describe('handles', () => {
  it('stand on collectors and keep-outs, and on the lit route given by hand, whose ends slide on their axes', () => {
    const plan = applyEdits(text('inline-four'), [
      {
        edit: 'take-route',
        cylinder: 1,
        inlet: 1,
        points: [
          [0, 0, 0],
          [0, 0, 150],
          [80, -100, 190],
          [100, -200, 150],
          [160, -350, 150],
        ],
        clr: [63.5, 63.5, 63.5],
      },
    ]);
    const shown = editable(plan.ok ? plan.text : '');
    expect(planHandles(shown, null).map((h) => h.id)).toEqual(['collector 0', 'keep-out 0', 'keep-out 1']);
    const points = planHandles(shown, '1').slice(3);
    expect(points.map((h) => h.id)).toEqual(['route 1 1', 'route 1 2', 'route 1 3']);
    expect(points[0]!.along).toEqual([0, 0, 1]);
    expect(points[1]!.along).toBeUndefined();
    expect(points[1]!.edit([80.2, -100.4, 190])).toMatchObject({ point: 2, at: [80, -100.5, 190] });
  });
});

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { applyEdits } from '../../../src/params/plan-edit/apply-edits.js';
import { type Editable, editableOf } from '../../../src/params/plan-edit/editable.js';
import type { PlanEdit } from '../../../src/params/plan-edit/plan-edit.js';
import { readPlan } from '../../../src/params/read-plan.js';
import { STARTERS } from '../../../src/params/text/starter.js';
import { TEMPLATE_FOLDER } from '../../support/command.js';

const read = (text: string): Editable => {
  const plan = readPlan(text, 'plan.yaml', (file) => readFileSync(`${TEMPLATE_FOLDER}${file}`));
  if (!plan.ok) throw new Error(plan.text);
  return editableOf(text, plan.plan);
};

/** The changes that write everything as it stands. */
const asItStands = (e: Editable): PlanEdit[] => [
  ...(e.length === null ? [] : [{ edit: 'runners', field: 'length', value: e.length } as const]),
  { edit: 'runners', field: 'spread', value: e.spread },
  { edit: 'runners', field: 'clearance', value: e.clearance },
  ...e.clr.flatMap((value, bend) => (value === null ? [] : [{ edit: 'tube-clr', bend, value } as const])),
  ...e.collectors.flatMap((c, collector): PlanEdit[] => [
    { edit: 'collector-at', collector, at: c.at },
    { edit: 'collector-direction', collector, direction: c.direction },
  ]),
  ...e.keepOuts.map(({ at }, keepOut): PlanEdit => ({ edit: 'keep-out-at', keepOut, at })),
];

describe('what can be changed', () => {
  it.each(STARTERS.map((s) => s.name))('of %s, written as it stands, is the plan as it stands', (name) => {
    const text = readFileSync(`${TEMPLATE_FOLDER}${name}.yaml`, 'utf8');
    expect(applyEdits(text, asItStands(read(text)))).toEqual({ ok: true, text });
  });

  it('follows a change', () => {
    const text = readFileSync(`${TEMPLATE_FOLDER}inline-four.yaml`, 'utf8');
    const done = applyEdits(text, [
      { edit: 'keep-out-at', keepOut: 1, at: [-90, -331, -60] },
      { edit: 'collector-angle', collector: 0, field: 'clocking', value: Math.PI / 6 },
    ]);
    const after = read(done.ok ? done.text : '');
    expect(after.keepOuts[1]).toEqual({ name: 'engine mount', kind: 'box', at: [-90, -331, -60] });
    expect(after.collectors[0]!.clocking).toBeCloseTo(Math.PI / 6, 9);
  });
});

import { expect } from 'vitest';
import type { PlanProblem } from '../../src/params/faults/plan-problem.js';
import type { Plan } from '../../src/params/plan.js';
import { readPlan } from '../../src/params/read-plan.js';

/** A small sound plan: two ports, 2-1, in mm. Tests change one thing of it. */
export const BASE = `evenrun: 1
name: base
units: mm
engine:
  cylinders: 2
  layout: inline
  firing_order: [1, 2]
  bore: 80
  stroke: 80
head:
  ports:
    - { cylinder: 1, at: [0, 0], shape: { kind: round, diameter: 38 } }
    - { cylinder: 2, at: [95, 0], shape: { kind: oval, width: 44, height: 36 } }
  bolts:
    - { at: [-40, 0], thread: M8 }
    - { at: [135, 0], thread: M8 }
flange:
  thickness: 10
  material: mild steel
tube:
  od: 42.4
  wall: 1.6
  material: 304 stainless
  bends:
    - { clr: 63.5 }
collector:
  at: [60, -300, 150]
  direction: [0, -1, 0]
  outlet: { od: 50, cone_length: 100 }
runners:
  length: 600
`;

/** The text with one part replaced; the part must stand in it exactly once. */
export function swap(text: string, part: string, by: string): string {
  expect(text.split(part).length - 1, `"${part}" in the text`).toBe(1);
  return text.replace(part, () => by);
}

/** The plan of a text that must be sound. */
export function planFrom(text: string): Plan {
  const read = readPlan(text, 'plan.yaml');
  if (!read.ok) throw new Error(read.text);
  return read.plan;
}

/** The problems of a text that must not be sound. */
export function problemsOf(text: string): readonly PlanProblem[] {
  const read = readPlan(text, 'plan.yaml');
  if (read.ok) throw new Error('the plan was accepted');
  return read.problems;
}

/** The one problem of the base plan with one part replaced, as people see it. */
export function problemAfter(part: string, by: string): string {
  const read = readPlan(swap(BASE, part, by), 'plan.yaml');
  if (read.ok) throw new Error('the plan was accepted');
  expect(read.problems, read.text).toHaveLength(1);
  return read.text;
}

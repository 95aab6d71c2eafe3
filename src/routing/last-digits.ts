/**
 * Numbers that come out of different axes or units agree to about 1e-12 mm and no further. A search that compares them a million
 * times must not see the rest: it gets them on steps. No round number of a plan lies between two steps, and what does lie there
 * meets with such a difference in one of a hundred thousand plans.
 */
const BETWEEN = 0.381966;

const onSteps = (x: number, perUnit: number): number => Math.floor(x * perUnit + BETWEEN) + 0;

/** To what lengths are handed to the search: this many steps in a mm. */
const LENGTH_STEPS = 1e7;

/** The same for components of unit directions: less than a length step on a metre. */
const DIRECTION_STEPS = 1e10;

/** What a place may have moved by, mm, for being put on its step, or be off along a direction so put: more than either, and no more than a weld sees. */
export const STEP_SLACK = 1e-6;

/** A length or coordinate on its step, mm. */
export const length7 = (mm: number): number => onSteps(mm, LENGTH_STEPS) / LENGTH_STEPS;

/** A component of a unit direction on its step. */
export const component10 = (c: number): number => onSteps(c, DIRECTION_STEPS) / DIRECTION_STEPS;

/** Steps of a mm by which places, and of a part in a thousand by which directions are told apart when things are put in order. */
const ORDER_STEPS = 1e5;

/** A length or coordinate, mm, as the number of its step among those by which places are put in order. */
export const placeInOrder = (mm: number): number => onSteps(mm, ORDER_STEPS);

/** A component of a unit direction, likewise. */
export const wayInOrder = (c: number): number => onSteps(1000 * c, ORDER_STEPS);

/** Above 0 when the first list is the greater at the first number that differs, or goes on where the second ends. */
export function compareLists(a: readonly number[], b: readonly number[]): number {
  for (let i = 0; i < a.length && i < b.length; i++) if (a[i] !== b[i]) return a[i]! - b[i]!;
  return a.length - b.length;
}

/** The part of a cost or shortfall by which another must be lower to count as lower: a move that changed nothing is no gain. */
const GAIN = 1e-9;

/** True when a cost is lower than another by more than last digits. */
export const isLower = (a: number, b: number): boolean => a < b - GAIN * Math.abs(b);

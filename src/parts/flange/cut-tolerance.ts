import type { CutClass } from '../../params/plan/flange.js';

/** Nominal dimensions of the columns, mm: above the first, up to the second. */
const NOMINAL: readonly (readonly [over: number, upTo: number])[] = [
  [3, 10],
  [10, 35],
  [35, 125],
  [125, 315],
  [315, 1000],
];

/** Plate thicknesses of the rows, mm: above the first, up to the second. */
const THICKNESS: readonly (readonly [over: number, upTo: number])[] = [
  [3.15, 6.3],
  [6.3, 10],
  [10, 15],
];

/** Limit deviations, plus and minus mm, by class, row and column: ISO 9013:2017, the two tables of its clause 7. */
const DEVIATIONS: Readonly<Record<CutClass, readonly (readonly number[])[]>> = {
  1: [
    [0.2, 0.25, 0.25, 0.3, 0.4],
    [0.25, 0.3, 0.3, 0.35, 0.45],
    [0.3, 0.35, 0.4, 0.45, 0.55],
  ],
  2: [
    [0.8, 0.9, 0.9, 1.1, 1.2],
    [1, 1.1, 1.3, 1.4, 1.5],
    [1.8, 1.8, 1.8, 1.9, 2.3],
  ],
};

const within = (table: readonly (readonly [number, number])[], value: number): number =>
  table.findIndex(([over, upTo]) => value > over && value <= upTo);

/**
 * How far a thermal cut may be off a dimension without a tolerance of its own, plus and minus mm, by ISO 9013:2017; null for a
 * thickness or size that this table does not hold.
 */
export function cutDeviation(cutClass: CutClass, thickness: number, nominal: number): number | null {
  return DEVIATIONS[cutClass][within(THICKNESS, thickness)]?.[within(NOMINAL, nominal)] ?? null;
}

import type { TuningInputs } from './tuning-inputs.js';

/** A step of the primary that is proposed. */
export interface ProposedStep {
  /** Running length from the head face, mm. */
  readonly at: number;
  /** Outside diameter from there on, mm. */
  readonly od: number;
  /** Part of a small wave's pressure that the step throws back; below zero as a rarefaction. */
  readonly reflection: number;
  /** Engine speed for which the step's own wave does what the collector's does for the whole length, over that speed. */
  readonly speedRatio: number;
}

/** How much larger the tube gets at each step: an eighth of an inch, common practice, no source. mm. */
const STEP_GROWTH = 25.4 / 8;

/** Part of a small wave's pressure that is thrown back where a pipe changes its area: (A1 - A2) / (A1 + A2). Linear acoustics. */
export const areaReflection = (before: number, after: number): number => (before - after) / (before + after);

/**
 * Steps that part a primary into equal lengths from the head face, each an eighth of an inch larger: common practice, no source. The wave
 * of a step comes back before the collector's, in the same crank angle at an engine speed higher by the ratio of the lengths from
 * the valve. Wall and od in mm.
 */
export function proposedSteps(
  t: Pick<TuningInputs, 'portLength'>,
  tube: { readonly od: number; readonly wall: number },
  length: number,
  count: number,
): ProposedStep[] {
  const area = (od: number): number => (od - 2 * tube.wall) ** 2;
  return Array.from({ length: count }, (_, i) => {
    const at = (length * (i + 1)) / (count + 1);
    const [before, od] = [tube.od + i * STEP_GROWTH, tube.od + (i + 1) * STEP_GROWTH];
    return {
      at,
      od,
      reflection: areaReflection(area(before), area(od)),
      speedRatio: (length + t.portLength) / (at + t.portLength),
    };
  });
}

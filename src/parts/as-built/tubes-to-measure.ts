import { outlineArea } from '../../geometry/outline/measure.js';
import type { Plan } from '../../params/plan.js';
import type { RoutedTube } from '../../routing/routed.js';
import type { FlangePart } from '../flange/part.js';
import { cylinderOf } from '../tube/pieces.js';
import { cutsOf } from '../tube/tube-cuts.js';
import { type TubeToMeasure, waterIn } from './built-tube.js';

/** Every tube of a header as it can be measured. */
export const tubesToMeasure = (
  plan: Plan,
  tubes: readonly RoutedTube[],
  flanges: readonly FlangePart[],
): TubeToMeasure[] =>
  tubes.map((tube) => ({ tube, cuts: cutsOf(plan, tube), openingVolume: openingVolume(plan, tube, flanges) }));

/**
 * What fills the flange's opening before a primary, mm3: the plate cut straight through, and what is ground away of a transition; where the tube
 * reaches through the flange in a socket, its own bore. 0 for a secondary.
 */
function openingVolume(plan: Plan, tube: RoutedTube, flanges: readonly FlangePart[]): number {
  const cylinder = cylinderOf(tube);
  if (cylinder === null) return 0;
  if (plan.flange.opening.match === 'tube_od') {
    const start = cutsOf(plan, tube).start;
    return waterIn(tube, 0) - waterIn(tube, start);
  }
  const flow = flanges.flatMap((f) => f.flows).find((f) => f.cylinder === cylinder)!;
  return outlineArea(flow.cut) * plan.flange.thickness + (flow.blend?.volume ?? 0);
}

import { WORLD } from '../../geometry/frame.js';
import { evaluate, type Solid, solidOf } from '../../geometry/solid/solid.js';
import { lengthWords } from '../../params/faults/wording.js';
import type { Plan } from '../../params/plan.js';
import type { FlangePart } from '../flange/flange.js';
import type { SolidPart } from '../part.js';
import { fitsTurned, printedPart } from '../printed-part.js';
import { proofThickness } from './proof-plate.js';
import { proofSolid } from './proof-solid.js';
import { dovetailCuts, splitAt } from './proof-split.js';

/**
 * The printed flange: laid on the head it proves ports and bolts, and it carries the mock-up. One part when it fits the bed,
 * else pieces joined by dovetails between the ports.
 */
export function flangeProof(plan: Plan, flange: FlangePart): SolidPart[] {
  const thickness = proofThickness(plan);
  const { fit, bed, chamfer } = plan.jig;
  // its pieces are cut out of one and the same plate
  const plate = evaluate(proofSolid(flange.region, thickness, fit));
  const solid = solidOf(plate);
  const part = (s: Solid, name: string, title: string): SolidPart =>
    printedPart(
      { name, kind: 'flange-proof', title, solid: s, at: plan.heads[flange.head]!.frame, up: WORLD, chamfer },
      bed,
    );
  const cuts = fitsTurned(plate, bed) ? null : dovetailCuts(flange.region, bed);
  if (cuts === null || cuts.length === 0) {
    return [
      part(solid, `${flange.name}-proof`, `Printed ${flange.name}, ${lengthWords(thickness, plan.units, 1)} thick`),
    ];
  }
  const pieces = splitAt(solid, cuts, thickness, fit);
  return pieces.map((piece, i) =>
    part(piece, `${flange.name}-proof-${i + 1}`, `Printed ${flange.name}, piece ${i + 1} of ${pieces.length}`),
  );
}

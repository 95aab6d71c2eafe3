import { pointFrom } from '../../geometry/frame.js';
import type { Plan } from '../../params/plan.js';
import type { RoutedPrimary } from '../../routing/routed.js';
import type { FlangePart } from '../flange.js';
import type { SolidPart } from '../part.js';
import { piecesOf } from '../pieces.js';
import { dummyTube } from './dummy-tube.js';
import { keyFor } from './key.js';
import { keyLengths } from './key-lengths.js';
import { portPlug } from './port-plug.js';
import { printedSpans } from './printed-spans.js';

/** Plug and dummy tubes of one primary, from the head to the collector. */
export function primaryJigs(plan: Plan, primary: RoutedPrimary, flanges: readonly FlangePart[]): SolidPart[] {
  const { jig, tube } = plan;
  const key = keyFor(tube.od, jig.fit);
  const pieces = printedSpans(piecesOf(plan, primary), jig.bed, jig.keyLength);
  const lengths = keyLengths(pieces, jig, key, tube.od);
  const port = plan.ports.find((p) => p.cylinder === primary.cylinder)!;
  const flange = flanges.find((f) => f.head === port.head)!;
  const head = plan.heads[port.head]!.frame;
  const face = { point: pointFrom(head, [0, 0, plan.flange.thickness]), normal: head.z };
  return [
    portPlug(plan, flange, pieces[0]!, key, lengths[0]!),
    ...pieces.map((piece, i) =>
      dummyTube({
        piece,
        od: tube.od,
        key,
        startKey: lengths[i]!,
        endKey: lengths[i + 1]!,
        face: piece.first ? face : null,
        bed: jig.bed,
      }),
    ),
  ];
}

import { directionFrom, frameAlong, pointFrom } from '../../geometry/frame.js';
import type { Access } from '../plan.js';
import type { PlanFile } from '../schema/plan-file.js';
import { socketDiameter } from '../tables/socket-diameters.js';
import type { PlacedHead } from './heads.js';

/** Room for a straight socket on every flange bolt and for the socket and boot of every plug, as far as the plan wants them. */
export function accessOf(
  heads: readonly PlacedHead[],
  wanted: PlanFile['access'],
  flangeThickness: number,
): readonly Access[] {
  return heads.flatMap((head) => [
    ...(wanted.bolts ? bolts(head, heads.length > 1, wanted.bolt_depth, flangeThickness) : []),
    ...(wanted.plugs ? plugs(head) : []),
  ]);
}

/** From the outer face of the flange, square to it. */
function bolts({ name, frame, section }: PlacedHead, several: boolean, depth: number, thickness: number): Access[] {
  return section.bolts.map((bolt, i) => ({
    name: `bolt ${i + 1}${several ? ` of ${name}` : ''}`,
    frame: { ...frame, origin: pointFrom(frame, [bolt.at[0], bolt.at[1], thickness]) },
    diameter: bolt.socket ?? socketDiameter(bolt.thread),
    length: depth,
  }));
}

function plugs({ frame, section }: PlacedHead): Access[] {
  return section.plugs.map((plug, i) => {
    const before = section.plugs.slice(0, i).filter((p) => p.cylinder === plug.cylinder).length;
    return {
      name: `${before === 0 ? 'plug' : `plug ${before + 1}`} of cylinder ${plug.cylinder}`,
      frame: frameAlong(pointFrom(frame, plug.at), directionFrom(frame, plug.direction)),
      diameter: plug.diameter,
      length: plug.length,
    };
  });
}

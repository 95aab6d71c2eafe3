import { type Frame, pointFrom } from '../../geometry/frame.js';
import { outlineContains } from '../../geometry/outline/contains.js';
import { pointToOutline } from '../../geometry/outline/distance.js';
import { add2, distance2, lerp2, type Vec2 } from '../../geometry/vec2.js';
import type { Vec3 } from '../../geometry/vec3.js';
import type { FlangeBolt, JigHolder, Plan } from '../../params/plan.js';
import type { FlangePart } from '../flange/flange.js';
import { LIP, proofThickness } from './proof-plate.js';

/** Thickness of a foot's pad, mm. */
export const PAD = 6;

/** Room round a bolt for its socket, in thread diameters from the axis: common practice, no source. */
const SOCKET_ROOM = 1.25;

/** A foot on the printed flange or the block: a pad bolted down at a bolt, with the strut's seat beside the bolt. */
export interface FootPlace {
  /** Index into `Plan.heads`, and into that head's bolts; beyond the heads for a bolt of the block, which has a face of its own. */
  readonly head: number;
  readonly bolt: number;
  /** The face it is bolted to, z away from it, and how high over it the pad stands, mm. */
  readonly frame: Frame;
  readonly plate: number;
  /** Where the bolt is, in words. */
  readonly bolted: string;
  /** Bolt and seat on the face, mm. */
  readonly at: Vec2;
  readonly seat: Vec2;
  readonly holeDiameter: number;
  /** On which side of the bolt the seat is, by number. */
  readonly side: number;
  /** Radius of what stands on the seat, mm. */
  readonly thick: number;
  /** Radius of the pad about the bolt, and the radius about it to keep free for the tool, mm. */
  readonly padRadius: number;
  readonly toolRadius: number;
  /** Where the strut's axis meets the pad: the middle of the seat, world. */
  readonly root: Vec3;
  /** The bolt's axis at the same height, world. */
  readonly boltRoot: Vec3;
}

/** Feet that stand clear of every port's plug and of other bolts' tools; 16 directions about each bolt. `strut` is a radius, mm. */
export function footPlaces(plan: Plan, flange: FlangePart, strut: number): FootPlace[] {
  const head = plan.heads[flange.head]!;
  const own = flange.region.bolts.map((b) => b.bolt);
  return own.flatMap((index) => {
    const bolted = `the flange's bolt ${index + 1}`;
    const face = { head: flange.head, bolt: index, frame: head.frame, plate: proofThickness(plan), bolted };
    return aboutBolt(face, head.bolts[index]!, strut).filter((foot) => standsFree(foot, head.bolts, flange, strut));
  });
}

/** Feet at the bolts of the block that a plan names. `strut` is a radius, mm. */
export function blockFootPlaces(plan: Plan, { bolts }: JigHolder, strut: number): FootPlace[] {
  return bolts.flatMap((bolt, i) => {
    const bolted = `bolt ${i + 1} of the block`;
    const face = { head: plan.heads.length + i, bolt: i, frame: bolt.frame, plate: 0, bolted };
    return aboutBolt(face, { ...bolt, at: [0, 0] }, strut);
  });
}

type Face = Pick<FootPlace, 'head' | 'bolt' | 'frame' | 'plate' | 'bolted'>;
type Bolt = Pick<FlangeBolt, 'at' | 'holeDiameter' | 'threadDiameter'>;

/** 16 seats round a bolt, as near as its tool allows. */
function aboutBolt(face: Face, bolt: Bolt, strut: number): FootPlace[] {
  const height = face.plate + PAD / 2;
  return Array.from({ length: 16 }, (_, k): FootPlace => {
    const a = (Math.PI * k) / 8;
    const toolRadius = SOCKET_ROOM * bolt.threadDiameter;
    const aside = toolRadius + strut + 2;
    const seat = add2(bolt.at, [aside * Math.cos(a), aside * Math.sin(a)]);
    return {
      ...face,
      at: bolt.at,
      seat,
      side: k,
      thick: strut,
      holeDiameter: bolt.holeDiameter,
      padRadius: bolt.holeDiameter / 2 + 5,
      toolRadius,
      root: pointFrom(face.frame, [seat[0], seat[1], height]),
      boltRoot: pointFrom(face.frame, [bolt.at[0], bolt.at[1], height]),
    };
  });
}

function standsFree(foot: FootPlace, bolts: readonly FlangeBolt[], flange: FlangePart, strut: number): boolean {
  const wide = Math.max(foot.padRadius, strut + 1);
  const axis = [0, 0.25, 0.5, 0.75, 1].map((t) => lerp2(foot.at, foot.seat, t));
  const clearOfPorts = flange.region.openings.every((o) =>
    axis.every((p) => !outlineContains(o.outline, p) && pointToOutline(p, o.outline).distance > wide + LIP + 1),
  );
  const clearOfBolts = bolts.every(
    (b, i) => i === foot.bolt || axis.every((p) => distance2(p, b.at) > wide + SOCKET_ROOM * b.threadDiameter),
  );
  return clearOfPorts && clearOfBolts;
}

import type { Vec2 } from '../../geometry/vec2.js';
import { along, dot, sub, unit, type Vec3 } from '../../geometry/vec3.js';
import { type FootPlace, PAD } from './foot-places.js';
import { type HolderBlock, neckLength } from './holder-block.js';

/** A way from the holder to a foot, free of tubes: two points when straight, three with an elbow; world, mm. */
export interface StrutLine {
  readonly foot: FootPlace;
  /** Direction of the arm across the collector's axis, and how far it reaches, collector frame. */
  readonly arm: Vec2;
  readonly out: number;
  readonly points: readonly Vec3[];
  /** Where the arm leaves the holder's axis, world. */
  readonly armRoot: Vec3;
  /** How much of it at its foot is no thicker than its seat, mm. */
  readonly neck: number;
}

/** The axis of a strut or an arm that stands already, with the strut's radius, mm, and the bolt its foot is on, if it has one. */
export interface TakenLine {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly radius: number;
  readonly foot: FootPlace | null;
}

/** The axes a strut and its arm take up, for the holders placed after. */
export function takenBy({ armRoot, points, foot, neck }: StrutLine, block: HolderBlock): TakenLine[] {
  const ways = [armRoot, ...withNeck(points, neck)];
  return ways.slice(1).map((to, i) => {
    const last = i === ways.length - 2;
    return { from: ways[i]!, to, radius: last ? foot.thick : block.strut, foot: last ? foot : null };
  });
}

/** A strut's points with the one where it begins to be no thicker than its seat. */
export function withNeck(points: readonly Vec3[], neck: number): Vec3[] {
  const [before, root] = points.slice(-2) as [Vec3, Vec3];
  return [...points.slice(0, -1), along(root, unit(sub(before, root)), neck), root];
}

/** How much of a strut at its foot is no thicker than its seat, mm. */
export function neckOf(points: readonly Vec3[], foot: FootPlace, block: HolderBlock): number {
  const [before, root] = points.slice(-2) as [Vec3, Vec3];
  return neckLength(block, foot.thick, dot(unit(sub(before, root)), foot.frame.z), PAD);
}

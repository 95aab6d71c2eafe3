import { meshGap, type SurfaceTree, surfaceTree } from '../mesh/gap.js';
import type { Mesh } from '../mesh/mesh.js';
import type { Vec3 } from '../vec3.js';
import { sharedVolumes } from './solid.js';

/** What is measured between two of many bodies: the volume they share, mm3, and, where that is nothing, their distance, mm, `within` at most. */
export interface Meeting {
  readonly shared: number;
  readonly gap: number;
}

/**
 * Two of many bodies, by their numbers, and how far to search for their distance, mm. With a `shift`, mm, the second is moved by it
 * first and the distance of their surfaces alone is measured, 0 where these cross.
 */
export interface Pairing {
  readonly a: number;
  readonly b: number;
  readonly shift?: Vec3;
  readonly within: number;
}

/** Surfaces further apart than this, mm, share nothing: far above what the kernel's 32-bit floats lose at a metre. */
const APART = 1e-3;

/**
 * The meetings of chosen pairs of closed meshes. Only bodies whose surfaces meet, or one of which could lie within the other, are
 * handed to the boolean kernel.
 */
export function meetingsOf(meshes: readonly Mesh[], pairs: readonly Pairing[]): Meeting[] {
  const trees = new Map<number, SurfaceTree>();
  const tree = (i: number): SurfaceTree => {
    const made = trees.get(i) ?? surfaceTree(meshes[i]!);
    trees.set(i, made);
    return made;
  };
  const gaps = pairs.map(({ a, b, shift, within }) =>
    meshGap(tree(a), tree(b), within, shift ? { shift } : { enough: APART }),
  );
  const doubtful = pairs.flatMap(({ a, b, shift }, k) =>
    shift === undefined && (gaps[k]! < APART || isWithin(tree(a), tree(b)) || isWithin(tree(b), tree(a))) ? [k] : [],
  );
  const volumes = sharedVolumes(
    meshes,
    doubtful.map((k) => [pairs[k]!.a, pairs[k]!.b]),
  );
  const shared = new Map(doubtful.map((k, i) => [k, volumes[i]!]));
  return gaps.map((gap, k) => {
    const volume = shared.get(k) ?? 0;
    return { shared: volume, gap: volume > 0 ? 0 : gap };
  });
}

/** True when the box of one surface lies in the box of another. */
const isWithin = (inner: SurfaceTree, outer: SurfaceTree): boolean =>
  [0, 1, 2].every((k) => inner.boxes[k]! >= outer.boxes[k]! && inner.boxes[3 + k]! <= outer.boxes[3 + k]!);

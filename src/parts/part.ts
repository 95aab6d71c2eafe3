import type { Frame } from '../geometry/frame.js';
import type { Mesh } from '../geometry/mesh.js';

export type PartKind =
  | 'dummy-tube'
  | 'flange-proof'
  | 'port-plug'
  | 'collector-holder'
  | 'spacing-comb'
  | 'tube-foot'
  | 'collector'
  | 'collector-piece'
  | 'merge-gauge'
  | 'saw-block'
  | 'fit-coupon'
  | 'bench-saddle'
  | 'bench-plate'
  | 'scribing-sleeve'
  | 'clocking-ring';

/** Kinds that serve on the bench and have no place in the mock-up; their poses lay them to the tubes where those stand in the world. */
export const BENCH_KINDS: readonly PartKind[] = ['bench-saddle', 'bench-plate', 'scribing-sleeve', 'clocking-ring'];

/** A solid to make or print: a mesh as it lies on the bed, and where it stands in the assembly. */
export interface SolidPart {
  /** Safe as a file name: lower-case letters, digits and hyphens. */
  readonly name: string;
  readonly kind: PartKind;
  /** What it is, in words. */
  readonly title: string;
  /** As printed: lowest z is 0, the footprint's middle at x = y = 0. */
  readonly mesh: Mesh;
  /** Takes the printed part to its place in the world: world point = pointFrom(pose, printed point). */
  readonly pose: Frame;
  /** Extent as printed, mm. */
  readonly size: readonly [x: number, y: number, z: number];
  /** Null when it fits the plan's bed, else why not. */
  readonly tooBig: string | null;
}

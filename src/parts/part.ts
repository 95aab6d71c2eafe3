import type { Frame } from '../geometry/frame.js';
import type { Mesh } from '../geometry/mesh/mesh.js';

/** Where a kind of printed part serves: in the mock-up, on the bench, beside the collector, or to find the printer's fit. */
const USES = {
  'dummy-tube': 'mock-up',
  'flange-proof': 'mock-up',
  'port-plug': 'mock-up',
  'collector-holder': 'mock-up',
  'spacing-comb': 'mock-up',
  'tube-foot': 'mock-up',
  collector: 'mock-up',
  'collector-piece': 'collector',
  'merge-gauge': 'collector',
  'saw-block': 'collector',
  'fit-coupon': 'printer',
  'bench-saddle': 'bench',
  'bench-plate': 'bench',
  'scribing-sleeve': 'bench',
  'clocking-ring': 'bench',
} as const satisfies Readonly<Record<string, 'mock-up' | 'bench' | 'collector' | 'printer'>>;

/**
 * What a printed part is.
 * @useDeclaredType
 */
export type PartKind = keyof typeof USES;

/** True for what serves on the bench and has no place in the mock-up; its pose lays it to the tubes where those stand in the world. */
export const servesOnBench = ({ kind }: Pick<SolidPart, 'kind'>): boolean => USES[kind] === 'bench';

/** A solid to make or print: a mesh as it lies on the bed, and where it stands in the assembly. */
export interface SolidPart {
  /** Safe as a file name: lower-case letters, digits and hyphens. */
  readonly name: string;
  /** What it is. */
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

import { type Meeting, meetingsOf } from '../../geometry/solid/mesh-meetings.js';
import { CHORD_ERROR } from '../../geometry/tolerance.js';
import type { Plan } from '../../params/plan.js';
import type { RoutedTube } from '../../routing/routed.js';
import { type SolidPart, servesOnBench } from '../part.js';
import { type CentrelineProof, centrelinesOf } from './proof-centreline.js';
import { type MarkProof, marksOf } from './proof-marks.js';
import { type MateProof, mateOf, mateSearches } from './proof-mate.js';
import { type PoseProof, posesOf } from './proof-pose.js';
import { type StandingPart, standingPart } from './standing-part.js';

/**
 * What the proof allows. Coordinates of printed parts stand on a grid of 2^-12 mm and pass through the kernel as 32-bit floats:
 * together 0.0003 mm, over the largest face two parts share (some 2,000 mm2) less than `overlap`. All our own.
 */
export const PROOF_LIMITS = {
  /** Volume two parts may share, mm3. */
  overlap: 0.6,
  /** Distance between faces that meet, and between the middles of their rims, which are chords, mm. */
  face: 0.01,
  offset: CHORD_ERROR,
  /** Place of a collector's inlets on its holder, mm, and turn of their axes, rad. */
  pose: 0.01,
  turn: 1e-3,
  /** Centreline of a dummy tube from its route, measured error of its radius, and error of a key's fit, mm. */
  centreline: CHORD_ERROR,
  skin: CHORD_ERROR,
  fit: CHORD_ERROR,
  /** Height of what is raised, mm. */
  mark: CHORD_ERROR,
} as const;

/** Two parts that share space, mm3. */
export interface Overlap {
  readonly a: string;
  readonly b: string;
  readonly volume: number;
}

/** What was measured on the printed parts as they stand in the assembly, from their meshes and poses alone. */
export interface AssemblyProof {
  /** Pairs of parts near enough to be looked at. */
  readonly pairs: number;
  /** Every pair that shares any space, the largest first. */
  readonly overlaps: readonly Overlap[];
  /** Parts that do not hang together with any printed flange. */
  readonly loose: readonly string[];
  readonly mates: readonly MateProof[];
  readonly poses: readonly PoseProof[];
  readonly centrelines: readonly CentrelineProof[];
  readonly marks: readonly MarkProof[];
}

/** Puts the printed parts of a mock-up together in numbers and measures them; jigs for the bench have no part in it. */
export function assemblyProof(plan: Plan, tubes: readonly RoutedTube[], parts: readonly SolidPart[]): AssemblyProof {
  const standing = parts.filter((p) => !servesOnBench(p) && p.kind !== 'collector').map(standingPart);
  const pairs = nearPairs(standing);
  const searches = mateSearches(plan, tubes, standing);
  const near = pairs.map(([a, b]) => ({ a, b, within: 2 * PROOF_LIMITS.face }));
  const met = meetingsOf(
    standing.map((s) => s.mesh),
    [...near, ...searches.map((s) => s.pairing)],
  );
  const touching = pairs.filter((_, k) => met[k]!.gap <= PROOF_LIMITS.face);
  return {
    pairs: pairs.length,
    overlaps: overlapsOf(standing, pairs, met),
    loose: looseOf(standing, touching),
    mates: searches.map((s, i) => mateOf(s, met[pairs.length + i]!.gap)),
    poses: posesOf(plan, standing),
    centrelines: centrelinesOf(plan, tubes, standing),
    marks: marksOf(plan, tubes, standing),
  };
}

type Pair = readonly [number, number];

function overlapsOf(standing: readonly StandingPart[], pairs: readonly Pair[], met: readonly Meeting[]): Overlap[] {
  const name = (i: number): string => standing[i]!.part.name;
  return pairs
    .map(([i, j], k) => ({ a: name(i), b: name(j), volume: met[k]!.shared }))
    .filter((o) => o.volume > 0)
    .sort((a, b) => b.volume - a.volume);
}

/** Pairs whose boxes come within a hair of each other, found along x. */
function nearPairs(standing: readonly StandingPart[]): Pair[] {
  const order = standing.map((_, i) => i).sort((a, b) => standing[a]!.bounds.low[0] - standing[b]!.bounds.low[0]);
  const near = 2 * PROOF_LIMITS.face;
  return order.flatMap((i, k) => {
    const a = standing[i]!.bounds;
    const found: Pair[] = [];
    for (const j of order.slice(k + 1)) {
      const b = standing[j]!.bounds;
      if (b.low[0] > a.high[0] + near) break;
      if ([1, 2].every((d) => b.low[d]! <= a.high[d]! + near && a.low[d]! <= b.high[d]! + near)) {
        found.push([Math.min(i, j), Math.max(i, j)]);
      }
    }
    return found;
  });
}

/** Parts from which no printed flange is reached by going from part to touching part; a comb is clipped on and touches nothing by design. */
function looseOf(standing: readonly StandingPart[], touching: readonly Pair[]): string[] {
  const held = new Set<number>();
  for (const [i, { part }] of standing.entries()) if (part.kind === 'flange-proof') held.add(i);
  // the set grows while it is gone through
  for (const at of held) {
    for (const [a, b] of touching) if (a === at || b === at) held.add(a).add(b);
  }
  return standing.filter((s, i) => !held.has(i) && s.part.kind !== 'spacing-comb').map((s) => s.part.name);
}

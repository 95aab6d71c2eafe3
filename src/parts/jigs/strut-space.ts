import { type Frame, pointFrom } from '../../geometry/frame.js';
import { headingAt, pathLength } from '../../geometry/path/path.js';
import { spanAtRun } from '../../geometry/path/span-at-run.js';
import { type Obstacle, obstacleDistance } from '../../geometry/space/obstacle.js';
import { segmentApproach } from '../../geometry/space/segment-distance.js';
import { along, distance, dot, lerp, sub, type Vec3 } from '../../geometry/vec3.js';
import type { RoutedTube } from '../../routing/routed.js';
import { type FootPlace, PAD } from './foot-places.js';
import type { HolderBlock } from './holder-block.js';
import type { TakenLine } from './strut-line.js';

/** A tube and its sizes along it. */
export type SizedTube = Pick<RoutedTube, 'id' | 'path' | 'sections'>;

/** What struts must keep clear of. */
export interface StrutSpace {
  readonly block: HolderBlock;
  readonly frame: Frame;
  readonly feet: readonly FootPlace[];
  readonly tubes: readonly SizedTube[];
  /** Ids of the tubes that end at this holder. */
  readonly ending: readonly string[];
  readonly obstacles: readonly Obstacle[];
  /** Struts and arms of holders placed before, by their axes. */
  readonly taken: readonly TakenLine[];
}

/** Least gap between a strut and anything else, mm. */
export const STRUT_GAP = 2;

/** Tubes are sampled this finely, mm; over it a sampled distance of s is above the true one by at most s - sqrt(s^2 - STEP^2 / 4). */
const STEP = 4;

/** Points of tubes' centrelines and the tube's radius there, four numbers each. */
export interface Samples {
  readonly all: Float64Array;
  /** Of the tubes that do not end at this holder. */
  readonly passing: Float64Array;
}

/** Points of tubes' centrelines with the radius, x, y, z, r in turn; about a step the larger size counts. */
export function sampled(tubes: readonly SizedTube[]): Float64Array {
  return Float64Array.from(
    tubes.flatMap(({ path, sections }) => {
      const length = pathLength(path);
      const n = Math.ceil(length / STEP);
      return Array.from({ length: n + 1 }, (_, i) => {
        const run = (length * i) / n;
        const size = spanAtRun(sections, run + STEP);
        return [...headingAt(path, run).point, size.od / 2];
      }).flat();
    }),
  );
}

/** An arm of the holder against what passes it. Its own tubes end before it begins. */
export function armIsFree(root: Vec3, end: Vec3, passing: Float64Array, space: StrutSpace): boolean {
  const wide = space.block.strut + 1;
  return clearOfSamples(root, end, passing, wide + STRUT_GAP) && clearOfObstacles(root, end, space, wide);
}

/** Nothing of another holder at this bolt or over this foot. */
export function boltIsFree(foot: FootPlace, { taken }: StrutSpace): boolean {
  return taken.every((t) => (t.foot === null || !inTheWay(foot, t.foot)) && isClearOfPad(t.from, t.to, t.radius, foot));
}

/** True when two feet share a bolt or their pads, spanners or bolts would touch. */
export function inTheWay(a: FootPlace, b: FootPlace): boolean {
  const wide = Math.max(a.padRadius, b.padRadius, a.thick + 1, b.thick + 1, a.toolRadius);
  return (
    (a.head === b.head && a.bolt === b.bolt) ||
    segmentApproach(a.boltRoot, a.root, b.boltRoot, b.root).distance < 2 * wide + 1
  );
}

/** A round bar between two points against struts, arms and feet that stand already. */
export function isClearOfTaken(p: Vec3, q: Vec3, radius: number, { taken }: StrutSpace): boolean {
  return taken.every(
    (t) =>
      segmentApproach(p, q, t.from, t.to).distance >= radius + t.radius + 2 + STRUT_GAP &&
      (t.foot === null || isClearOfPad(p, q, radius, t.foot)),
  );
}

/** A round bar between two points against a foot's pad. */
export function isClearOfPad(p: Vec3, q: Vec3, radius: number, foot: FootPlace): boolean {
  return segmentApproach(p, q, foot.boltRoot, foot.root).distance >= padReach(foot) + radius + STRUT_GAP;
}

/** How far a pad reaches from the line between its bolt's and its strut's roots, mm. */
const padReach = (foot: FootPlace): number => Math.hypot(Math.max(foot.padRadius, foot.thick + 1), PAD / 2);

/** A strut against its own holder's block, its stubs and what joins them, and its stem. */
export function isClearOfBlock(p: Vec3, q: Vec3, radius: number, { block, frame }: StrutSpace): boolean {
  const { stem, depth } = block;
  if (stem) {
    const [base, end] = [depth, stem.end].map((z) => pointFrom(frame, [0, 0, z]));
    if (segmentApproach(p, q, base!, end!).distance < stem.radius + radius + STRUT_GAP) return false;
  }
  const ends = [0, block.depth].map((z) => block.inlets.map((i) => pointFrom(frame, along(i.origin, i.z, z / i.z[2]))));
  return ends.every((ring) =>
    ring.every((a) =>
      ring.every((b) => segmentApproach(p, q, a, b).distance >= block.radius + radius + STRUT_GAP - 1e-9),
    ),
  );
}

/** A foot's pad against points on the tubes' skins. */
export function padIsFree(foot: FootPlace, samples: Float64Array): boolean {
  return clearOfSamples(foot.boltRoot, foot.root, samples, padReach(foot) + STRUT_GAP);
}

/** A round bar between two points against the plan's obstacles. */
export function clearOfObstacles(p: Vec3, q: Vec3, { obstacles }: StrutSpace, radius: number): boolean {
  const n = Math.max(1, Math.ceil(distance(p, q) / STEP));
  for (const o of obstacles) {
    for (let i = 0; i <= n; i++) {
      if (obstacleDistance(o, lerp(p, q, i / n)) < radius + STRUT_GAP + STEP / 8) return false;
    }
  }
  return true;
}

/** A bar's skin, `gap` mm from the line between two points, outside every sampled tube. */
export function clearOfSamples(p: Vec3, q: Vec3, samples: Float64Array, gap: number): boolean {
  const d = sub(q, p);
  const square = dot(d, d);
  for (let i = 0; i < samples.length; i += 4) {
    const x = samples[i]! - p[0];
    const y = samples[i + 1]! - p[1];
    const z = samples[i + 2]! - p[2];
    const t = square === 0 ? 0 : Math.min(1, Math.max(0, (x * d[0] + y * d[1] + z * d[2]) / square));
    const [u, v, w] = [x - d[0] * t, y - d[1] * t, z - d[2] * t];
    const least = samples[i + 3]! + gap;
    if (u * u + v * v + w * w < least * least) return false;
  }
  return true;
}

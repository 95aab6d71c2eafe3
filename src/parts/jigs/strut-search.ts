import { type Frame, pointFrom } from '../../geometry/frame.js';
import { type Obstacle, obstacleDistance } from '../../geometry/obstacle.js';
import { headingAt, pathLength } from '../../geometry/path.js';
import { segmentApproach } from '../../geometry/segment-distance.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { along, distance, dot, lerp, sub, unit, type Vec3 } from '../../geometry/vec3.js';
import type { RoutedTube } from '../../routing/routed.js';
import { type FootPlace, PAD } from './foot-places.js';
import { armEnd, bossLength, type HolderBlock, neckLength, reachOf } from './holder-block.js';

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

/** Least gap between a strut and anything else, mm. */
export const STRUT_GAP = 2;

/** Tubes are sampled this finely, mm; over it a sampled distance of s is above the true one by at most s - sqrt(s^2 - STEP^2 / 4). */
const STEP = 4;

/** Sine of the least angle between a strut and the flange's face. */
const LEAST_RISE = 0.3;

/** Most a strut may run along the way of the gas, so that its boss stays above the holder's base. */
const MOST_AHEAD = 0.05;

/** Shortest strut between its bosses, mm. */
const SHORTEST = 15;

/** Every way for one strut that is free: an arm all round the holder to every bolt, by the shortest way; straight, or by an elbow. */
export function freeLines(space: StrutSpace, shape: 'straight' | 'elbow'): StrutLine[] {
  const samples: Samples = {
    all: sampled(space.tubes),
    passing: sampled(space.tubes.filter((t) => !space.ending.includes(t.id))),
  };
  return shape === 'straight' ? linesOf(space, samples, straightWays, 1) : linesOf(space, samples, elbowWays, 2);
}

/** Points of tubes' centrelines and the tube's radius there, four numbers each. */
interface Samples {
  readonly all: Float64Array;
  /** Of the tubes that do not end at this holder. */
  readonly passing: Float64Array;
}

type Ways = (from: Vec3, foot: FootPlace, normal: Vec3) => readonly (readonly Vec3[])[];

const straightWays: Ways = (from, foot) => [[from, foot.root]];

/** By way of a point some height over the flange's face, so and so far along the face from the foot to below the holder. */
const elbowWays: Ways = (from, foot, normal) => {
  const way = sub(from, foot.root);
  const level = along(way, normal, -dot(way, normal));
  return [50, 90, 150, 220].flatMap((height) =>
    [-0.2, 0, 0.2, 0.4, 0.6, 0.8, 1].map((share) => [
      from,
      along(along(foot.root, normal, height), level, share),
      foot.root,
    ]),
  );
};

/** `every` so many of the arms' directions and lengths and of the feet's sides are tried: by an elbow there are ways enough. */
function linesOf(space: StrutSpace, samples: Samples, ways: Ways, every: number): StrutLine[] {
  const { block, frame, feet } = space;
  const free = thickest(feet.filter((f) => f.side % every === 0 && boltIsFree(f, space) && padIsFree(f, samples.all)));
  const lines = new Map<string, { line: StrutLine; length: number }>();
  for (let k = 0; k < 24; k += every) {
    const a = (2 * Math.PI * k) / 24;
    const arm: Vec2 = [Math.cos(a), Math.sin(a)];
    for (const extra of [4, 14, 28, 45].filter((_, i) => i % every === 0)) {
      const out = reachOf(block, arm) + block.strut + extra;
      const from = pointFrom(frame, armEnd(block, arm, out));
      const armRoot = pointFrom(frame, [0, 0, block.armHeight]);
      if (!isClearOfTaken(armRoot, from, block.strut, space) || !armIsFree(armRoot, from, samples.passing, space))
        continue;
      for (const foot of free) {
        const key = `${k} ${foot.head} ${foot.bolt} ${foot.thick}`;
        for (const points of ways(from, foot, foot.frame.z)) {
          const length = lengthOf(points);
          if (length >= (lines.get(key)?.length ?? Number.POSITIVE_INFINITY)) continue;
          if (isFree(points, armRoot, foot, space, samples))
            lines.set(key, { line: { foot, arm, out, points, armRoot, neck: neckOf(points, foot, block) }, length });
        }
      }
    }
  }
  return [...lines.values()].map((l) => l.line);
}

/** Of the seats on one side of a bolt the thickest: feet come thickest first. */
function thickest(feet: readonly FootPlace[]): FootPlace[] {
  const sides = new Map<string, FootPlace>();
  for (const foot of feet) {
    const side = `${foot.head} ${foot.bolt} ${foot.side}`;
    if (!sides.has(side)) sides.set(side, foot);
  }
  return [...sides.values()];
}

const lengthOf = (points: readonly Vec3[]): number =>
  points.slice(1).reduce((sum, p, i) => sum + distance(points[i]!, p), 0);

/** Points of tubes' centrelines with the radius, x, y, z, r in turn; about a step the larger size counts. */
function sampled(tubes: readonly SizedTube[]): Float64Array {
  return Float64Array.from(
    tubes.flatMap(({ path, sections }) => {
      const length = pathLength(path);
      const n = Math.ceil(length / STEP);
      return Array.from({ length: n + 1 }, (_, i) => {
        const run = (length * i) / n;
        const size = sections.filter((s) => s.from <= run + STEP).at(-1) ?? sections[0]!;
        return [...headingAt(path, run).point, size.od / 2];
      }).flat();
    }),
  );
}

/** An arm of the holder against what passes it. Its own tubes end before it begins. */
function armIsFree(root: Vec3, end: Vec3, passing: Float64Array, space: StrutSpace): boolean {
  const wide = space.block.strut + 1;
  return clearOfSamples(root, end, passing, wide + STRUT_GAP) && clearOfObstacles(root, end, space, wide);
}

/** Nothing of another holder at this bolt or over this foot. */
function boltIsFree(foot: FootPlace, { taken }: StrutSpace): boolean {
  return taken.every((t) => (t.foot === null || !inTheWay(foot, t.foot)) && isClearOfPad(t.from, t.to, t.radius, foot));
}

export function inTheWay(a: FootPlace, b: FootPlace): boolean {
  const wide = Math.max(a.padRadius, b.padRadius, a.thick + 1, b.thick + 1, a.toolRadius);
  return (
    (a.head === b.head && a.bolt === b.bolt) ||
    segmentApproach(a.boltRoot, a.root, b.boltRoot, b.root).distance < 2 * wide + 1
  );
}

/** A round bar between two points against struts, arms and feet that stand already. */
function isClearOfTaken(p: Vec3, q: Vec3, radius: number, { taken }: StrutSpace): boolean {
  return taken.every(
    (t) =>
      segmentApproach(p, q, t.from, t.to).distance >= radius + t.radius + 2 + STRUT_GAP &&
      (t.foot === null || isClearOfPad(p, q, radius, t.foot)),
  );
}

export function isClearOfPad(p: Vec3, q: Vec3, radius: number, foot: FootPlace): boolean {
  return segmentApproach(p, q, foot.boltRoot, foot.root).distance >= padReach(foot) + radius + STRUT_GAP;
}

/** How far a pad reaches from the line between its bolt's and its strut's roots, mm. */
const padReach = (foot: FootPlace): number => Math.hypot(Math.max(foot.padRadius, foot.thick + 1), PAD / 2);

/** A strut against its own holder's block, its stubs and what joins them, and its stem. */
function isClearOfBlock(p: Vec3, q: Vec3, radius: number, { block, frame }: StrutSpace): boolean {
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

function padIsFree(foot: FootPlace, samples: Float64Array): boolean {
  return clearOfSamples(foot.boltRoot, foot.root, samples, padReach(foot) + STRUT_GAP);
}

/** How much of a strut at its foot is no thicker than its seat, mm. */
function neckOf(points: readonly Vec3[], foot: FootPlace, block: HolderBlock): number {
  const [before, root] = points.slice(-2) as [Vec3, Vec3];
  return neckLength(block, foot.thick, dot(unit(sub(before, root)), foot.frame.z), PAD);
}

function isFree(points: readonly Vec3[], armRoot: Vec3, foot: FootPlace, space: StrutSpace, samples: Samples): boolean {
  const { block, frame } = space;
  const boss = bossLength(block);
  const first = sub(points[1]!, points[0]!);
  const spans = points.slice(1).map((p, i) => distance(points[i]!, p));
  const last = sub(points[points.length - 2]!, points[points.length - 1]!);
  const normal = foot.frame.z;
  if (dot(unit(last), normal) < LEAST_RISE) return false;
  const neck = neckOf(points, foot, block);
  if (spans.some((l, i) => l < boss + (i === spans.length - 1 ? Math.max(boss, neck) : boss) + SHORTEST)) return false;
  if (dot(unit(first), frame.z) > MOST_AHEAD) return false;
  if (foldsBack([armRoot, ...points], block)) return false;
  const ways = withNeck(points, neck);
  return ways.slice(1).every((to, i) => {
    const from = ways[i]!;
    const radius = i === ways.length - 2 ? foot.thick : block.strut;
    // the tool that tightens the foot's bolt comes straight down on it
    const tool = segmentApproach(foot.boltRoot, along(foot.boltRoot, normal, 80), to, from).distance;
    return (
      tool >= foot.toolRadius + radius + 1 &&
      clearOfSamples(from, to, samples.all, radius + STRUT_GAP + 0.1) &&
      clearOfObstacles(from, to, space, radius) &&
      isClearOfTaken(from, to, radius, space) &&
      isClearOfBlock(from, to, radius, space)
    );
  });
}

/** At the arm's end and at an elbow, bars that have left their bosses must have parted. */
function foldsBack(ways: readonly Vec3[], block: HolderBlock): boolean {
  const boss = bossLength(block);
  return ways.slice(1, -1).some((at, i) => {
    const [back, on] = [ways[i]!, ways[i + 2]!];
    const begins = along(at, unit(sub(on, at)), boss);
    return segmentApproach(begins, on, back, at).distance < 2 * block.strut + 1 + STRUT_GAP / 2;
  });
}

function clearOfObstacles(p: Vec3, q: Vec3, { obstacles }: StrutSpace, radius: number): boolean {
  const n = Math.max(1, Math.ceil(distance(p, q) / STEP));
  for (const o of obstacles) {
    for (let i = 0; i <= n; i++) {
      if (obstacleDistance(o, lerp(p, q, i / n)) < radius + STRUT_GAP + STEP / 8) return false;
    }
  }
  return true;
}

/** A bar's skin, `gap` mm from the line between two points, outside every sampled tube. */
function clearOfSamples(p: Vec3, q: Vec3, samples: Float64Array, gap: number): boolean {
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

import { type Frame, pointFrom } from '../../geometry/frame.js';
import { type Obstacle, obstacleDistance } from '../../geometry/obstacle.js';
import { headingAt, pathLength } from '../../geometry/path.js';
import { segmentApproach } from '../../geometry/segment-distance.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { along, distance, dot, lerp, sub, unit, type Vec3 } from '../../geometry/vec3.js';
import type { RoutedTube } from '../../routing/routed.js';
import { type FootPlace, PAD } from './foot-places.js';
import { armEnd, bossLength, type HolderBlock, reachOf } from './holder-block.js';

/** A way from the holder to a foot, free of tubes: two points when straight, three with an elbow; world, mm. */
export interface StrutLine {
  readonly foot: FootPlace;
  /** Direction of the arm across the collector's axis, and how far it reaches, collector frame. */
  readonly arm: Vec2;
  readonly out: number;
  readonly points: readonly Vec3[];
  /** Where the arm leaves the holder's axis, world. */
  readonly armRoot: Vec3;
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

/** The axis of something round of a strut's diameter that stands already, and the bolt its foot is on, if it has one. */
export interface TakenLine {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly foot: FootPlace | null;
}

/** The axes a strut and its arm take up, for the holders placed after. */
export const takenBy = ({ armRoot, points, foot }: StrutLine): TakenLine[] =>
  points.map((to, i) => ({ from: points[i - 1] ?? armRoot, to, foot: i === points.length - 1 ? foot : null }));

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

/**
 * Struts for one collector: three where three can stand well apart, else two, else what there is. Straight lines first; with an
 * elbow only while there are fewer than two. Anchors are tried all round the holder against every foot.
 */
export function findStruts(space: StrutSpace): StrutLine[] {
  const samples: Samples = {
    all: sampled(space.tubes),
    passing: sampled(space.tubes.filter((t) => !space.ending.includes(t.id))),
  };
  const straight = linesOf(space, samples, straightWays);
  const chosen = choose(straight, space.block);
  if (chosen.length >= 2) return chosen;
  return choose([...straight, ...linesOf(space, samples, elbowWays)], space.block);
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

function linesOf(space: StrutSpace, samples: Samples, ways: Ways): StrutLine[] {
  const { block, frame, feet } = space;
  const free = feet.filter((f) => boltIsFree(f, space) && padIsFree(f, samples.all, block));
  const lines = new Map<string, { line: StrutLine; length: number }>();
  for (let k = 0; k < 24; k++) {
    const a = (2 * Math.PI * k) / 24;
    const arm: Vec2 = [Math.cos(a), Math.sin(a)];
    for (const extra of [4, 14, 28, 45]) {
      const out = reachOf(block, arm) + block.strut + extra;
      const from = pointFrom(frame, armEnd(block, arm, out));
      const armRoot = pointFrom(frame, [0, 0, block.armHeight]);
      if (!isClearOfTaken(armRoot, from, space) || !armIsFree(armRoot, from, samples.passing, space)) continue;
      for (const foot of free) {
        const key = `${k} ${foot.head} ${foot.bolt}`;
        for (const points of ways(from, foot, foot.frame.z)) {
          const length = lengthOf(points);
          if (length >= (lines.get(key)?.length ?? Number.POSITIVE_INFINITY)) continue;
          if (isFree(points, armRoot, foot, space, samples))
            lines.set(key, { line: { foot, arm, out, points, armRoot }, length });
        }
      }
    }
  }
  return [...lines.values()].map((l) => l.line);
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
function boltIsFree(foot: FootPlace, { taken, block }: StrutSpace): boolean {
  return taken.every(
    (t) => (t.foot === null || !inTheWay(foot, t.foot, block)) && isClearOfPad(t.from, t.to, foot, block),
  );
}

function inTheWay(a: FootPlace, b: FootPlace, block: HolderBlock): boolean {
  const wide = Math.max(a.padRadius, b.padRadius, block.strut + 1, a.toolRadius);
  return (
    (a.head === b.head && a.bolt === b.bolt) ||
    segmentApproach(a.boltRoot, a.root, b.boltRoot, b.root).distance < 2 * wide + 1
  );
}

/** A round bar between two points against struts, arms and feet that stand already. */
function isClearOfTaken(p: Vec3, q: Vec3, { taken, block }: StrutSpace): boolean {
  return taken.every(
    (t) =>
      segmentApproach(p, q, t.from, t.to).distance >= 2 * (block.strut + 1) + STRUT_GAP &&
      (t.foot === null || isClearOfPad(p, q, t.foot, block)),
  );
}

function isClearOfPad(p: Vec3, q: Vec3, foot: FootPlace, block: HolderBlock): boolean {
  return segmentApproach(p, q, foot.boltRoot, foot.root).distance >= padReach(foot, block) + block.strut + STRUT_GAP;
}

/** How far a pad reaches from the line between its bolt's and its strut's roots, mm. */
const padReach = (foot: FootPlace, block: HolderBlock): number =>
  Math.hypot(Math.max(foot.padRadius, block.strut + 1), PAD / 2);

/** A strut against its own holder's block, its stubs and what joins them, and its stem. */
function isClearOfBlock(p: Vec3, q: Vec3, { block, frame }: StrutSpace): boolean {
  const { stem, depth } = block;
  if (stem) {
    const [base, end] = [depth, stem.end].map((z) => pointFrom(frame, [0, 0, z]));
    if (segmentApproach(p, q, base!, end!).distance < stem.radius + block.strut + STRUT_GAP) return false;
  }
  const ends = [0, block.depth].map((z) => block.inlets.map((i) => pointFrom(frame, along(i.origin, i.z, z / i.z[2]))));
  return ends.every((ring) =>
    ring.every((a) =>
      ring.every((b) => segmentApproach(p, q, a, b).distance >= block.radius + block.strut + STRUT_GAP - 1e-9),
    ),
  );
}

function padIsFree(foot: FootPlace, samples: Float64Array, block: HolderBlock): boolean {
  return clearOfSamples(foot.boltRoot, foot.root, samples, padReach(foot, block) + STRUT_GAP);
}

function isFree(points: readonly Vec3[], armRoot: Vec3, foot: FootPlace, space: StrutSpace, samples: Samples): boolean {
  const { block, frame } = space;
  const boss = bossLength(block);
  const first = sub(points[1]!, points[0]!);
  const last = sub(points[points.length - 2]!, points[points.length - 1]!);
  const spans = points.slice(1).map((p, i) => distance(points[i]!, p));
  if (spans.some((l) => l < 2 * boss + SHORTEST)) return false;
  if (dot(unit(first), frame.z) > MOST_AHEAD) return false;
  if (foldsBack([armRoot, ...points], block)) return false;
  const normal = foot.frame.z;
  if (dot(unit(last), normal) < LEAST_RISE) return false;
  // the tool that tightens the foot's bolt comes straight down on it
  const far = points[points.length - 2]!;
  const tool = segmentApproach(foot.boltRoot, along(foot.boltRoot, normal, 80), foot.root, far).distance;
  if (tool < foot.toolRadius + block.strut + 1) return false;
  const gap = block.strut + STRUT_GAP + 0.1;
  for (let i = 1; i < points.length; i++) {
    if (!clearOfSamples(points[i - 1]!, points[i]!, samples.all, gap)) return false;
    if (!clearOfObstacles(points[i - 1]!, points[i]!, space, block.strut)) return false;
    if (!isClearOfTaken(points[i - 1]!, points[i]!, space)) return false;
    if (!isClearOfBlock(points[i - 1]!, points[i]!, space)) return false;
  }
  return true;
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

/** The best pair, then a third that stands well apart from both. */
function choose(lines: readonly StrutLine[], block: HolderBlock): StrutLine[] {
  let best: { pair: StrutLine[]; score: number } | null = null;
  for (let i = 0; i < lines.length; i++) {
    for (let j = 0; j < i; j++) {
      const score = standApart(lines[i]!, lines[j]!, block);
      if (score !== null && (best === null || score > best.score)) best = { pair: [lines[j]!, lines[i]!], score };
    }
  }
  if (best === null) {
    const shortest = [...lines].sort((a, b) => lengthOf(a.points) - lengthOf(b.points))[0];
    return shortest ? [shortest] : [];
  }
  const [a, b] = best.pair as [StrutLine, StrutLine];
  let third: { line: StrutLine; score: number } | null = null;
  for (const line of lines) {
    const [p, q] = [standApart(line, a, block), standApart(line, b, block)];
    if (p === null || q === null) continue;
    if (third === null || Math.min(p, q) > third.score) third = { line, score: Math.min(p, q) };
  }
  return third && third.score > 0 ? [...best.pair, third.line] : best.pair;
}

/** How well two struts hold together: far apart at the feet and at the holder, and not long; null when they are in each other's way. */
function standApart(a: StrutLine, b: StrutLine, block: HolderBlock): number | null {
  const feet = distance(a.foot.root, b.foot.root);
  const arms = distance(a.points[0]!, b.points[0]!);
  if (inTheWay(a.foot, b.foot, block) || arms < 6 * block.strut) return null;
  const gap = 2 * block.strut + 1 + STRUT_GAP;
  for (const [one, other] of [
    [a, b],
    [b, a],
  ] as const) {
    for (let i = 1; i < one.points.length; i++) {
      const [p, q] = [one.points[i - 1]!, one.points[i]!];
      if (!isClearOfPad(p, q, other.foot, block)) return null;
      const ways = [other.armRoot, ...other.points];
      if (ways.slice(1).some((to, j) => segmentApproach(p, q, ways[j]!, to).distance < gap)) return null;
    }
  }
  return feet + 2 * arms - 0.4 * (lengthOf(a.points) + lengthOf(b.points));
}

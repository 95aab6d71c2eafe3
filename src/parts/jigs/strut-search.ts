import { pointFrom } from '../../geometry/frame.js';
import { segmentApproach } from '../../geometry/space/segment-distance.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { along, distance, dot, sub, unit, type Vec3 } from '../../geometry/vec3.js';
import type { FootPlace } from './foot-places.js';
import { armEnd, bossLength, type HolderBlock, reachOf } from './holder-block.js';
import { neckOf, type StrutLine, withNeck } from './strut-line.js';
import {
  armIsFree,
  boltIsFree,
  clearOfObstacles,
  clearOfSamples,
  isClearOfBlock,
  isClearOfTaken,
  padIsFree,
  type Samples,
  STRUT_GAP,
  type StrutSpace,
  sampled,
} from './strut-space.js';

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

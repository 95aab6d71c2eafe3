import { headingAt, type Path, pathLength } from '../../../geometry/path.js';
import { add2, distance2, dot2, rotate2, sub2, type Vec2 } from '../../../geometry/vec2.js';
import { dot, type Vec3 } from '../../../geometry/vec3.js';
import type { BenchPlan } from '../../../params/plan.js';
import { jointRoom, ringReach } from './clocking-ring.js';
import { convexApart, convexHull } from './convex-apart.js';

/** Thickness of a saddle's foot, and half of the post's length along the tube, mm. Our own, as are all sizes of a saddle. */
export const SADDLE_FOOT = 6;
const HALF_POST = 6;

/** A post higher than this, mm, is made longer by an eighth of what it is more. */
const SLIM = 60;

/** Wall beside the seat, mm. */
const WALL = 4;

/** Least height of a tube's skin over the feet, mm, however little room the torch wants: the writing is there. */
const LEAST_RISE = 12;

/** A tube steeper than this against the plate, rad, would slide out of its seat. */
const STEEPEST = (50 * Math.PI) / 180;

/** Length of piece, mm, from which on it gets a second saddle. */
const TWO = 60;

/** Room a saddle keeps to a tube's own end, and step of the search along a piece, mm. */
const END = 4;
const STEP = 3;

/** Height of the lowest skin of a tube over the plate: nothing beneath a joint is nearer than the torch's room, mm. */
export const liftOf = (bench: BenchPlan): number => SADDLE_FOOT + Math.max(bench.torchRoom, LEAST_RISE);

/** A hole of the base plate by column and row, from 0. */
export type Hole = readonly [column: number, row: number];

/** A saddle of a tube that lies over the plate: z up from the plate's top, holes at whole pitches. */
export interface SaddlePlace {
  readonly piece: string;
  /** mm along the whole path. */
  readonly run: number;
  readonly point: Vec3;
  readonly direction: Vec3;
  /** Outside radius of the tube, mm. */
  readonly radius: number;
  /** Unit, level, the way of the gas. */
  readonly level: Vec2;
  readonly halfLength: number;
  readonly halfWidth: number;
  /** Before the post as the gas goes, and behind it. */
  readonly holes: readonly [front: Hole, back: Hole];
  /** What the foot covers, convex. */
  readonly foot: readonly Vec2[];
}

/** A piece as it lies: its stretch of the whole path and where its joints to others are. */
export interface LyingPiece {
  readonly name: string;
  readonly radius: number;
  readonly from: number;
  readonly to: number;
  readonly jointBefore: boolean;
  readonly jointAfter: boolean;
}

/** A tube lying over the plate. */
export interface LyingTube {
  readonly path: Path;
  readonly pieces: readonly LyingPiece[];
}

/** The saddles of a tube, none touching another or the tube, and the pieces without one. */
export function saddlePlaces(
  tube: LyingTube,
  bench: BenchPlan,
  fit: number,
): { places: SaddlePlace[]; notes: string[] } {
  const places: SaddlePlace[] = [];
  const notes: string[] = [];
  for (const piece of tube.pieces) {
    const margin = (joint: boolean) => (joint ? jointRoom(bench) : END);
    const [low, high] = [piece.from + margin(piece.jointBefore), piece.to - margin(piece.jointAfter)];
    const before = places.length;
    const seek = (runs: readonly number[]): void => {
      const found = firstPlace(tube, piece, runs, { low, high, bench, fit, taken: places });
      if (found) places.push(found);
    };
    if (high - low >= TWO) {
      const half = (low + high) / 2;
      seek(stepsFrom(low, half - TWO / 4));
      seek(stepsFrom(high, half + TWO / 4));
    } else {
      seek(outwards((low + high) / 2, low, high));
    }
    if (places.length === before) notes.push(whyNone(tube, piece, low, high));
  }
  return { places, notes };
}

function whyNone({ path }: LyingTube, { name, from, to }: LyingPiece, low: number, high: number): string {
  if (high - low < 2 * HALF_POST)
    return `piece ${name}: too short for a saddle with room for the torch; its neighbours carry it`;
  const rise = Math.abs(headingAt(path, (from + to) / 2).direction[2]);
  if (rise > Math.sin(STEEPEST))
    return `piece ${name}: it stands too steep over the base plate for a saddle; hold it by hand or a prop`;
  return `piece ${name}: no place for a saddle clear of the others and of the tube; its neighbours carry it`;
}

/** Runs from one end towards another, both included. */
function stepsFrom(from: number, to: number): number[] {
  const n = Math.max(1, Math.ceil(Math.abs(to - from) / STEP));
  return Array.from({ length: n + 1 }, (_, i) => from + ((to - from) * i) / n);
}

/** Runs from the middle outwards to either side. */
function outwards(middle: number, low: number, high: number): number[] {
  const out = stepsFrom(0, Math.max(0, (high - low) / 2));
  return out.flatMap((d) => (d === 0 ? [middle] : [middle - d, middle + d]));
}

interface Seeking {
  readonly low: number;
  readonly high: number;
  readonly bench: BenchPlan;
  readonly fit: number;
  readonly taken: readonly SaddlePlace[];
}

function firstPlace(tube: LyingTube, piece: LyingPiece, runs: readonly number[], seeking: Seeking): SaddlePlace | null {
  const { low, high, bench, fit, taken } = seeking;
  for (const wanted of runs) {
    const height = headingAt(tube.path, wanted).point[2];
    const halfLength = HALF_POST + Math.max(0, (height - SLIM) / 16);
    if (high - low < 2 * halfLength) continue;
    const run = Math.min(Math.max(wanted, low + halfLength), high - halfLength);
    const { point, direction } = headingAt(tube.path, run);
    if (Math.abs(direction[2]) > Math.sin(STEEPEST)) continue;
    const flat = Math.hypot(direction[0], direction[1]);
    // a slope stretches the post's reach along the tube
    if (run - halfLength / flat < low - 1e-9 || run + halfLength / flat > high + 1e-9) continue;
    const level: Vec2 = [direction[0] / flat, direction[1] / flat];
    const halfWidth = piece.radius + fit + WALL;
    const post = { point, direction, level, halfLength, halfWidth, radius: piece.radius, run };
    if (!clearOfTube(tube, post) || !clearOfJoints(tube.path, piece, post, ringReach(bench))) continue;
    for (const holes of holePairs(post, bench)) {
      const foot = footOf(post, holes, bench);
      if (taken.every((t) => convexApart(t.foot, foot, 1))) return { piece: piece.name, ...post, holes, foot };
    }
  }
  return null;
}

type Post = Omit<SaddlePlace, 'piece' | 'holes' | 'foot'>;

/** True when the rest of the tube passes the post with 2 mm to spare. */
function clearOfTube({ path, pieces }: LyingTube, post: Post): boolean {
  const own = post.halfLength + 2.5 * post.radius;
  const count = Math.ceil(pathLength(path) / 2);
  for (let i = 0; i <= count; i++) {
    const run = (pathLength(path) * i) / count;
    if (Math.abs(run - post.run) < own) continue;
    const radius = (pieces.find((p) => run <= p.to) ?? pieces[pieces.length - 1]!).radius;
    const [x, y, z] = headingAt(path, run).point;
    const off = sub2([x, y], [post.point[0], post.point[1]]);
    const [u, v] = [Math.abs(dot2(off, post.level)), Math.abs(dot2(off, across(post.level)))];
    if (u < post.halfLength + radius + 2 && v < post.halfWidth + radius + 2 && z - radius < post.point[2] + post.radius)
      return false;
  }
  return true;
}

/** Least distance of a post's corners from the plane a ring ends in, mm. */
const BESIDE = 1;

/** True when all of the post is beyond what a ring takes up beside the joints of its piece: on a bend the two lean towards each other. */
function clearOfJoints(
  path: Path,
  { from, to, jointBefore, jointAfter }: LyingPiece,
  post: Post,
  room: number,
): boolean {
  const ends = [
    ...(jointBefore ? [{ ...headingAt(path, from + room), way: 1 }] : []),
    ...(jointAfter ? [{ ...headingAt(path, to - room), way: -1 }] : []),
  ];
  return ends.every(({ point: [x, y, z], direction, way }) =>
    postCorners(post).every((c) =>
      // at the tube's axis, and as deep below it as a ring hangs
      [0, 1.5 * post.radius].every((deep) => {
        const off: Vec3 = [c[0] - x, c[1] - y, post.point[2] - deep - z];
        return way * dot(off, direction) >= BESIDE;
      }),
    ),
  );
}

/** Corners of a post seen from above, counter-clockwise. */
export function postCorners({ point, level, halfLength, halfWidth }: Post): Vec2[] {
  const corners: Vec2[] = [
    [-halfLength, -halfWidth],
    [halfLength, -halfWidth],
    [halfLength, halfWidth],
    [-halfLength, halfWidth],
  ];
  return corners.map((p) => add2([point[0], point[1]], rotate2(p, level[0], level[1])));
}

/** Level, to the left of the way of the gas seen from above. */
export const across = ([x, y]: Vec2): Vec2 => [-y, x];

/** Most pairs of holes tried at one place. */
const PAIRS = 12;

/** Radius of the foot about a hole, and of what turns in the hole, mm. */
export const lugRadius = (bench: BenchPlan): number => bench.base.hole / 2 + 5;
const headRadius = (bench: BenchPlan): number => bench.base.hole + 1;

/** Holes before and behind the post, the nearest pairs first. */
function holePairs(post: Post, bench: BenchPlan): [Hole, Hole][] {
  const { pitch } = bench.base;
  const [cx, cy] = [Math.round(post.point[0] / pitch), Math.round(post.point[1] / pitch)];
  const reach = Math.ceil((post.halfWidth + post.halfLength + headRadius(bench)) / pitch) + 1;
  const near: { hole: Hole; u: number; cost: number }[] = [];
  for (let i = cx - reach; i <= cx + reach; i++) {
    for (let j = cy - reach; j <= cy + reach; j++) {
      const off = sub2([i * pitch, j * pitch], [post.point[0], post.point[1]]);
      const [u, v] = [dot2(off, post.level), dot2(off, across(post.level))];
      if (Math.abs(u) < post.halfLength + headRadius(bench) || Math.abs(v) > post.halfWidth) continue;
      near.push({ hole: [i, j], u, cost: Math.abs(u) + 0.5 * Math.abs(v) });
    }
  }
  const sorted = near.sort((a, b) => a.cost - b.cost || a.hole[0] - b.hole[0] || a.hole[1] - b.hole[1]);
  const front = sorted.filter((n) => n.u > 0).slice(0, 4);
  const back = sorted.filter((n) => n.u < 0).slice(0, 4);
  return front
    .flatMap((f) => back.map((b) => ({ pair: [f.hole, b.hole] as [Hole, Hole], cost: f.cost + b.cost })))
    .sort((a, b) => a.cost - b.cost)
    .slice(0, PAIRS)
    .map((p) => p.pair);
}

/** What the foot covers: both lugs and the post's base. */
function footOf(post: Post, holes: readonly Hole[], bench: BenchPlan): Vec2[] {
  const { pitch } = bench.base;
  const r = lugRadius(bench);
  const lugs = holes.flatMap(([i, j]) =>
    Array.from({ length: 24 }, (_, k): Vec2 => {
      const a = (2 * Math.PI * k) / 24;
      return [i * pitch + r * Math.cos(a), j * pitch + r * Math.sin(a)];
    }),
  );
  return convexHull(
    [...postCorners(post), ...lugs].filter((p, i, all) => all.findIndex((q) => distance2(p, q) < 1e-9) === i),
  );
}

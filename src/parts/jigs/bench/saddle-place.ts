import { headingAt } from '../../../geometry/path/path.js';
import type { Vec2 } from '../../../geometry/vec2.js';
import type { BenchPlan } from '../../../params/plan.js';
import { jointRoom, ringReach } from './clocking-ring.js';
import { convexApart } from './convex-apart.js';
import { footOf, holePairs } from './saddle-foot.js';
import { clearOfJoints, clearOfTube, type LyingPiece, type LyingTube, type SaddlePlace } from './saddle-post.js';

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

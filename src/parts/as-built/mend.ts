import { along, length, type Vec3 } from '../../geometry/vec3.js';
import type { BuiltTube } from './built-tube.js';
import { leastShift, type Movable, shiftOf } from './least-shift.js';
import type { OpenStraight } from './open-straights.js';
import { shapeOfPath } from './tube-shape.js';

/** A straight made longer or shorter, mm. */
export interface Change {
  readonly straight: OpenStraight;
  /** Negative to cut off, positive to let in. */
  readonly by: number;
}

/** One way to bring a tube to a length. mm. */
export interface Way {
  readonly changes: readonly Change[];
  /** How far the end then stands off the collector inlet: by the straights alone, as far as they are known. World. */
  readonly shift: Vec3;
}

/** What is to be done to a tube, mm. */
export interface Mend {
  readonly built: BuiltTube;
  readonly by: number;
  /** The one advised first, then others. Empty when no straight has room. */
  readonly ways: readonly Way[];
}

/** A shift of the end that a tack draws in, mm. Common practice, no source. */
export const DRAWN_IN = 1;

/** A change smaller than this is none, mm: less than a saw keeps. */
const LEAST_CHANGE = 0.005;

/** A way that opens more straights must bring the end this much nearer to be told. */
const NEARER = 0.9;

/** Straights of a built tube with the room each has to become shorter, mm. */
export function roomOf(built: BuiltTube, straights: readonly OpenStraight[]): number[] {
  const off = straightsOff(built);
  return straights.map((s) => Math.max(0, s.to - s.from + off[s.index]! - s.least));
}

/** What the straights are longer than planned, mm; zeros where that is not known. */
function straightsOff({ tube, shape }: BuiltTube): number[] {
  const planned = shapeOfPath(tube.path).straights;
  return planned.map((l, i) => (shape === null ? 0 : shape.straights[i]! - l));
}

/**
 * Ways to make a tube longer (or shorter, when negative) by so many mm: on one straight, on the pair that moves the end least, on all
 * straights so that the end moves least of all. A straight changed moves the end along itself; two that run against each other leave it where it
 * is. First comes the one with fewest straights that leaves the end within what a tack draws in, or else the one that leaves it nearest.
 * Where straights were measured, the end is counted from where the plan has it, so that a straight cut wrong is mended in itself.
 */
export function mendOf(built: BuiltTube, straights: readonly OpenStraight[], by: number): Mend {
  const off = straightsOff(built);
  const before = straights.reduce<Vec3>((v, s) => along(v, s.direction, off[s.index]!), [0, 0, 0]);
  const rooms = roomOf(built, straights);
  const movable = straights.map((s, i) => ({ straight: s, direction: s.direction, room: rooms[i]! }));
  const usable = movable.filter((m) => m.straight.joint !== null && m.straight.to - m.straight.from > LEAST_CHANGE);
  const some = (own: readonly (typeof usable)[number][]): Way | null => wayOn(own, by, before);
  const one = best(usable.map((m) => some([m])));
  const pair = best(usable.flatMap((a, i) => usable.slice(i + 1).map((b) => some([a, b]))));
  const all = some(usable);
  const told: Way[] = [];
  for (const way of [one, pair, all]) {
    if (way === null) continue;
    const last = told.at(-1);
    if (!last || (length(way.shift) < NEARER * length(last.shift) && way.changes.length > last.changes.length))
      told.push(way);
  }
  const advised = told.find((w) => length(w.shift) <= DRAWN_IN + 1e-6) ?? told.at(-1);
  return { built, by, ways: advised ? [advised, ...told.filter((w) => w !== advised)] : [] };
}

function wayOn(own: readonly (Movable & { readonly straight: OpenStraight })[], by: number, before: Vec3): Way | null {
  const found = leastShift(own, by, before);
  if (found === null) return null;
  const changes = own.map(({ straight }, i) => ({ straight, by: found[i]! }));
  return { changes: changes.filter((c) => Math.abs(c.by) >= LEAST_CHANGE), shift: shiftOf(own, found, before) };
}

/** The way that leaves the end nearest; of ways as near, the one on the longest straights. */
function best(ways: readonly (Way | null)[]): Way | null {
  const longest = (w: Way): number => Math.min(...w.changes.map((c) => c.straight.to - c.straight.from));
  return ways
    .filter((w) => w !== null)
    .reduce<Way | null>((a, b) => {
      if (a === null) return b;
      const nearer = length(a.shift) - length(b.shift);
      return nearer > 1e-6 || (nearer > -1e-6 && longest(b) > longest(a)) ? b : a;
    }, null);
}

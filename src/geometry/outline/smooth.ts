import { biarc } from './biarc.js';
import type { Outline } from './outline.js';
import {
  arcAbout,
  directionAlong,
  outlineOfSides,
  pointAlong,
  reverseSide,
  type Side,
  sideLength,
  sidesOf,
} from './sides.js';
import { turnBetween } from './turn.js';

/** How much of the neighbours on each side of a fault is drawn anew, in multiples of the shortest side allowed. */
const REACH = 8;

/** Changes of direction between these, rad, are kinks left by rounding where a fillet has no room, not corners. */
const KINK = { least: 1e-7, most: 1e-3 } as const;

/**
 * A tangent outline without sides shorter than `least` mm and without kinks below 1e-3 rad: each is replaced, with a little of
 * its neighbours, by two arcs tangent to what is left of them. The outline moves by a part of the short side's length, or by a
 * thousandth of `least`, at most. Throws RangeError when that does not end.
 */
export function smoothOutline(outline: Outline, least: number): Outline {
  let sides = sidesOf(outline);
  for (let round = 0; round <= 2 * outline.vertices.length; round++) {
    const short = sides.findIndex((s) => sideLength(s) < least);
    const kink = short < 0 ? sides.findIndex((s, i) => isKink(sides.at(i - 1)!, s)) : -1;
    if (short < 0 && kink < 0) return round === 0 ? outline : outlineOfSides(sides);
    if (sides.length < 4) break;
    sides = short >= 0 ? redrawn(turnedTo(sides, short).slice(1), least) : redrawn(turnedTo(sides, kink), least);
  }
  throw new RangeError(`sides shorter than ${least} mm could not be smoothed away`);
}

function isKink(before: Side, after: Side): boolean {
  const turn = Math.abs(turnBetween(before, after));
  return turn > KINK.least && turn < KINK.most;
}

/** The closed run of sides begun at side `first`. */
const turnedTo = (sides: readonly Side[], first: number): readonly Side[] => [
  ...sides.slice(first),
  ...sides.slice(0, first),
];

/** An open run of sides, its ends cut back, closed by two arcs. */
function redrawn(run: readonly Side[], least: number): readonly Side[] {
  const after = takenOff(run, least);
  const before = takenOff([...after.rest].reverse().map(reverseSide), least);
  const [a, b] = [reverseSide(before.last), after.last];
  const joint = biarc(
    { point: a.from, direction: directionAlong(a, 0) },
    { point: b.to, direction: directionAlong(b, 1) },
  );
  return [...joint, ...[...before.rest].reverse().map(reverseSide)];
}

/** A run of sides less its first few millimetres, and the last piece taken. A stump that would be short itself is taken too. */
function takenOff(run: readonly Side[], least: number): { readonly last: Side; readonly rest: readonly Side[] } {
  let left = REACH * least;
  for (const [i, side] of run.entries()) {
    const l = sideLength(side);
    const most = i === run.length - 1 ? l / 2 : l;
    if (left + 2 * least < most || i === run.length - 1) {
      const t = Math.min(left, most) / l;
      return { last: part(side, 0, t), rest: [part(side, t, 1), ...run.slice(i + 1)] };
    }
    left -= l;
    if (left <= 0) return { last: side, rest: run.slice(i + 1) };
  }
  throw new RangeError('an outline without sides cannot be smoothed');
}

function part(side: Side, t0: number, t1: number): Side {
  if (side.kind === 'line') return { kind: 'line', from: pointAlong(side, t0), to: pointAlong(side, t1) };
  const arc = arcAbout(side.centre, side.radius, side.start + side.sweep * t0, side.sweep * (t1 - t0));
  return { ...arc, from: pointAlong(side, t0), to: pointAlong(side, t1) };
}

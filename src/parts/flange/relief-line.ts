import type { Outline } from '../../geometry/outline/outline.js';
import { rotateOutline, translateOutline } from '../../geometry/outline/transform.js';
import { add2, cross2, distance2, dot2, scale2, sub2, unit2, type Vec2 } from '../../geometry/vec2.js';
import type { EdgeHole, FlangeCore } from './core.js';
import { spineOf } from './spine.js';

/** A place on the line between two ports and the ways along and across it. */
export interface Line {
  readonly between: readonly [number, number];
  readonly from: Vec2;
  readonly along: Vec2;
  readonly across: Vec2;
  readonly length: number;
}

/** From one running length of a line to another, mm. */
export interface Span {
  readonly from: number;
  readonly to: number;
}

/** The line of every two openings that the spine joins. */
export const linesOf = (core: FlangeCore): Line[] =>
  spineOf(core.openings.map((o) => o.at)).map(({ a, b }) => {
    const [from, to] = [core.openings[a]!.at, core.openings[b]!.at];
    const along = unit2(sub2(to, from));
    return { between: [a, b], from, along, across: [-along[1], along[0]], length: distance2(from, to) };
  });

/** The flange's point at a running length of a line and a distance across it, mm. */
export const pointOn = (line: Line, s: number, t: number): Vec2 =>
  add2(line.from, add2(scale2(line.along, s), scale2(line.across, t)));

/** An outline seen from a line: x along it, y across. */
export const seenFrom = (line: Line, outline: Outline): Outline =>
  rotateOutline(translateOutline(outline, scale2(line.from, -1)), line.along[0], -line.along[1]);

/** A hole seen from a line: along it, across it and how far it reaches, mm. */
export const holeSeen = (line: Line, hole: EdgeHole) => {
  const to = sub2(hole.at, line.from);
  return { s: dot2(to, line.along), t: cross2(line.along, to), reach: Math.max(hole.length, hole.width) / 2 };
};

/** What is left of a span without others, longest first, then nearest its middle. */
export function freeParts(whole: Span, taken: readonly Span[]): Span[] {
  const sorted = [...taken].sort((a, b) => a.from - b.from);
  const free: Span[] = [];
  let at = whole.from;
  for (const t of [...sorted, { from: whole.to, to: whole.to }]) {
    if (t.from > at) free.push({ from: at, to: Math.min(t.from, whole.to) });
    at = Math.max(at, t.to);
  }
  const middle = (whole.from + whole.to) / 2;
  const off = (x: Span): number => Math.abs((x.from + x.to) / 2 - middle);
  return free
    .filter((f) => f.to > f.from)
    .sort((a, b) => {
      const longer = b.to - b.from - (a.to - a.from);
      return Math.abs(longer) > 1e-6 ? longer : off(a) - off(b);
    });
}

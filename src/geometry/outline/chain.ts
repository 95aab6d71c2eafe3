import { wrapPi } from '../angle.js';
import { cross2, distance2, dot2, sub2, type Vec2 } from '../vec2.js';
import type { Outline } from './outline.js';
import { type ArcSide, directionAlong, outlineOfSides, type Side, sideLength } from './sides.js';

/** Ends of pieces this close, mm, are one vertex: crossings of nearly tangent curves drift along them by sqrt(rounding). */
const NODE_TOLERANCE = 2e-5;

/** Two neighbouring sides lie on one line or circle when they leave it by less than this, mm. */
const SAME_CURVE = 1e-7;

/** A merged arc is kept below three quarters of a turn, so that its bulge stays well conditioned. */
const MOST_SWEEP = 1.5 * Math.PI;

/**
 * Closed outlines through loose pieces that run with the material on their left. Pieces that lead nowhere are left out;
 * where several leave one point the one furthest to the left is taken, so outlines touch but never cross.
 */
export function chainSides(pieces: readonly Side[]): readonly Outline[] {
  const nodes: Vec2[] = [];
  const nodeAt = (p: Vec2): number => {
    const found = nodes.findIndex((n) => distance2(n, p) <= NODE_TOLERANCE);
    return found >= 0 ? found : nodes.push(p) - 1;
  };
  const links = pieces
    .map((side) => ({ a: nodeAt(side.from), b: nodeAt(side.to), side }))
    .filter((l) => l.a !== l.b || sideLength(l.side) > 4 * NODE_TOLERANCE)
    .map((l) => ({ ...l, side: withEnds(l.side, nodes[l.a]!, nodes[l.b]!) }));
  const left = pruned(links);
  const loops: Outline[] = [];
  for (let first = left.pop(); first !== undefined; first = left.pop()) {
    const loop = [first];
    while (loop[loop.length - 1]!.b !== first.a) {
      const last = loop[loop.length - 1]!;
      const next = leftmost(last.side, left, last.b);
      if (next < 0) break;
      loop.push(...left.splice(next, 1));
    }
    if (loop[loop.length - 1]!.b === first.a) loops.push(outlineOfSides(rejoinSides(loop.map((l) => l.side))));
  }
  return loops;
}

interface Link {
  readonly a: number;
  readonly b: number;
  readonly side: Side;
}

/** The links that have another before and behind them, again and again until all do. */
function pruned(links: readonly Link[]): Link[] {
  const starts = new Set(links.map((l) => l.a));
  const ends = new Set(links.map((l) => l.b));
  const kept = links.filter((l) => ends.has(l.a) && starts.has(l.b));
  return kept.length === links.length ? kept : pruned(kept);
}

function leftmost(from: Side, links: readonly Link[], node: number): number {
  const heading = directionAlong(from, 1);
  let best = -1;
  let bestTurn = Number.NEGATIVE_INFINITY;
  links.forEach((l, i) => {
    if (l.a !== node) return;
    const d = directionAlong(l.side, 0);
    const turn = Math.atan2(cross2(heading, d), dot2(heading, d));
    if (turn > bestTurn) [best, bestTurn] = [i, turn];
  });
  return best;
}

/** A side with its ends moved by a hair: an arc keeps its centre and radius. */
function withEnds(side: Side, from: Vec2, to: Vec2): Side {
  if (side.kind === 'line') return { kind: 'line', from, to };
  const way = (p: Vec2): number => Math.atan2(p[1] - side.centre[1], p[0] - side.centre[0]);
  const start = way(from);
  const shift = wrapPi(way(to) - start - side.sweep);
  return { ...side, from, to, start, sweep: side.sweep + shift };
}

/** Closed run of sides with neighbours on one line or one circle made one side. */
export function rejoinSides(sides: readonly Side[]): readonly Side[] {
  const joined: Side[] = [];
  for (const s of sides) {
    const last = joined[joined.length - 1];
    const one = last === undefined ? null : asOne(last, s);
    if (one === null) joined.push(s);
    else joined[joined.length - 1] = one;
  }
  if (joined.length > 2) {
    const one = asOne(joined[joined.length - 1]!, joined[0]!);
    if (one !== null) return [...joined.slice(1, -1), one];
  }
  return joined;
}

function asOne(a: Side, b: Side): Side | null {
  if (a.kind === 'line' && b.kind === 'line') {
    const whole = sub2(b.to, a.from);
    const leaves = Math.abs(cross2(whole, sub2(a.to, a.from))) / Math.hypot(...whole);
    const onward = dot2(sub2(a.to, a.from), sub2(b.to, b.from)) > 0;
    return onward && leaves < SAME_CURVE ? { kind: 'line', from: a.from, to: b.to } : null;
  }
  if (a.kind === 'arc' && b.kind === 'arc') {
    const same =
      Math.sign(a.sweep) === Math.sign(b.sweep) &&
      distance2(a.centre, b.centre) < SAME_CURVE &&
      Math.abs(a.radius - b.radius) < SAME_CURVE;
    if (!same || Math.abs(a.sweep + b.sweep) > MOST_SWEEP) return null;
    const longer: ArcSide = Math.abs(a.sweep) > Math.abs(b.sweep) ? a : b;
    return { ...longer, from: a.from, to: b.to, start: a.start, sweep: a.sweep + b.sweep };
  }
  return null;
}

import type { Outline } from '../geometry/outline.js';
import { differenceOf } from '../geometry/outline-clip.js';
import { outlineContains } from '../geometry/outline-contains.js';
import { sideCrossings } from '../geometry/outline-crossings.js';
import { outlineToOutline } from '../geometry/outline-distance.js';
import { slotOutline } from '../geometry/outline-make.js';
import { outlineArea, outlineBounds, signedArea } from '../geometry/outline-measure.js';
import { roundOuterCorners } from '../geometry/outline-round.js';
import { sidesOf } from '../geometry/outline-sides.js';
import { rotateOutline, translateOutline } from '../geometry/outline-transform.js';
import { add2, cross2, distance2, dot2, scale2, sub2, unit2, type Vec2 } from '../geometry/vec2.js';
import type { EdgeHole, FlangeCore, PlateShape } from './flange-core.js';
import { onePiece } from './flange-plate.js';
import { spineOf } from './spine.js';

/** What became of the relief between two neighbouring ports. */
export interface Relief {
  /** What was cut. */
  readonly kind: 'neck' | 'slot';
  /** Places in the list of openings. */
  readonly between: readonly [number, number];
  /** Length of the neck along the line of ports, or of the slot across it, mm; 0 where there is no room. */
  readonly length: number;
}

/** Shorter necks, mm, bend no easier than the plate beside them and are hard to cut. Common practice, no source. */
const LEAST_NECK = 3;

/** Radius at the corners where a neck's cut meets the outer edge, mm. */
const CORNER = 1.5;

/** A place on the line between two ports and the ways along and across it. */
interface Line {
  readonly between: readonly [number, number];
  readonly from: Vec2;
  readonly along: Vec2;
  readonly across: Vec2;
  readonly length: number;
}

interface Span {
  readonly from: number;
  readonly to: number;
}

const linesOf = (core: FlangeCore): Line[] =>
  spineOf(core.openings.map((o) => o.at)).map(({ a, b }) => {
    const [from, to] = [core.openings[a]!.at, core.openings[b]!.at];
    const along = unit2(sub2(to, from));
    return { between: [a, b], from, along, across: [-along[1], along[0]], length: distance2(from, to) };
  });

const pointOn = (line: Line, s: number, t: number): Vec2 =>
  add2(line.from, add2(scale2(line.along, s), scale2(line.across, t)));

/** An outline seen from a line: x along it, y across. */
const seenFrom = (line: Line, outline: Outline): Outline =>
  rotateOutline(translateOutline(outline, scale2(line.from, -1)), line.along[0], -line.along[1]);

const holeSeen = (line: Line, hole: EdgeHole) => {
  const to = sub2(hole.at, line.from);
  return { s: dot2(to, line.along), t: cross2(line.along, to), reach: Math.max(hole.length, hole.width) / 2 };
};

/** What is left of a span without others, longest first, then nearest its middle. */
function freeParts(whole: Span, taken: readonly Span[]): Span[] {
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

/** Where a neck goes on a line and how long it gets: clear of every opening and hole by the edges asked, `extra` mm more. */
function neckOn(core: FlangeCore, line: Line, length: number, extra: number): Span | null {
  const taken = [
    ...core.openings.map((o): Span => {
      const { from, to } = outlineBounds(seenFrom(line, o.outline));
      return { from: from[0] - core.portEdge - extra, to: to[0] + core.portEdge + extra };
    }),
    ...core.holes.map((h): Span => {
      const { s, reach } = holeSeen(line, h);
      return { from: s - reach - core.holeEdge - extra, to: s + reach + core.holeEdge + extra };
    }),
  ];
  const [room] = freeParts({ from: 0, to: line.length }, taken);
  if (room === undefined || room.to - room.from < LEAST_NECK) return null;
  const half = Math.min(length, room.to - room.from) / 2;
  const middle = (room.from + room.to) / 2;
  return { from: middle - half, to: middle + half };
}

/** The plate in one piece with a cut from either edge between ports, so that a neck of a width stays for a length along their line, mm. */
export function necked(width: number, length: number): PlateShape {
  return (core, extra) => {
    const [plate] = onePiece(core, extra);
    let outline = plate!;
    let cutAny = false;
    for (const line of linesOf(core)) {
      const span = neckOn(core, line, length, extra);
      if (span === null) continue;
      for (const side of [1, -1] as const) {
        const left = withoutCut(outline, line, span, (side * width) / 2, core.fillet);
        if (left === null) continue;
        outline = left;
        cutAny = true;
      }
    }
    return [cutAny && core.fillet > 0 ? roundOuterCorners(outline, Math.min(CORNER, width / 4)) : outline];
  };
}

/** The outline with a cut from `bottom` mm off the line outwards; null where there is nothing to cut or something would fall off. */
function withoutCut(outline: Outline, line: Line, span: Span, bottom: number, fillet: number): Outline | null {
  const { from, to } = outlineBounds(seenFrom(line, outline));
  const far = bottom > 0 ? to[1] + 10 : from[1] - 10;
  if (Math.abs(far) - 10 <= Math.abs(bottom) + 0.5) return null;
  const cut = cutOutline(span, bottom, far, Math.min(fillet, (span.to - span.from) / 2));
  const placed = translateOutline(rotateOutline(cut, line.along[0], line.along[1]), line.from);
  const left = differenceOf(outline, placed);
  const whole = left.length === 1 && signedArea(left[0]!) > 0;
  return whole && outlineArea(outline) - outlineArea(left[0]!) > 1 ? left[0]! : null;
}

/** A cut seen from its line: from `bottom`, with rounded corners there, out to `far`, both above the line or both below. Counter-clockwise. */
function cutOutline({ from, to }: Span, bottom: number, far: number, radius: number): Outline {
  const [low, high] = [Math.abs(bottom), Math.abs(far)];
  const quarter = { bulge: Math.SQRT2 - 1 };
  const flat = to - from - 2 * radius > 1e-6;
  const floor =
    radius > 0
      ? [
          { x: from, y: low + radius, ...quarter },
          { x: from + radius, y: low, ...(flat ? { bulge: 0 } : quarter) },
          ...(flat ? [{ x: to - radius, y: low, ...quarter }] : []),
          { x: to, y: low + radius, bulge: 0 },
        ]
      : [
          { x: from, y: low, bulge: 0 },
          { x: to, y: low, bulge: 0 },
        ];
  const vertices = [{ x: from, y: high, bulge: 0 }, ...floor, { x: to, y: high, bulge: 0 }];
  return { vertices: bottom > 0 ? vertices : vertices.map((v) => ({ ...v, x: from + to - v.x, y: -v.y })) };
}

/** The necks there is room for. */
export const necksOf = (core: FlangeCore, length: number, extra: number): readonly Relief[] =>
  linesOf(core).map((line) => {
    const span = neckOn(core, line, length, extra);
    return { kind: 'neck', between: line.between, length: span === null ? 0 : span.to - span.from };
  });

/** A slot across the plate between two ports. */
export interface ReliefSlot extends Relief {
  readonly outline: Outline | null;
}

/** Slots wanted: width, least metal to the outer edge at the ends and to openings and holes beside them, mm. */
export interface SlotWish {
  readonly width: number;
  readonly tie: number;
  readonly web: number;
}

/** Places tried along a line. */
const PLACES = 120;

/** A slot shorter than this many widths, and than this, mm, relieves nothing. */
const LEAST_SLOT = { widths: 3, length: 8 } as const;

/**
 * One closed slot between every two neighbouring ports, square to their line, as long as the ties leave it and clear of openings
 * and holes by the web: at the place where it gets longest, of equals the nearest to the middle.
 */
export function reliefSlots(core: FlangeCore, outer: Outline, wish: SlotWish): readonly ReliefSlot[] {
  return linesOf(core).map((line): ReliefSlot => {
    const found = longestSlot(core, outer, line, wish);
    const none = { kind: 'slot', between: line.between, length: 0, outline: null } as const;
    if (found === null) return none;
    const fitted = fittedSlot(found, outer, line, wish);
    return fitted === null ? none : { ...none, ...fitted };
  });
}

interface Place {
  readonly s: number;
  /** The middles of the slot's round ends, across the line. */
  readonly span: Span;
}

function longestSlot(core: FlangeCore, outer: Outline, line: Line, { width, tie, web }: SlotWish): Place | null {
  const openings = core.openings.map((o) => outlineBounds(seenFrom(line, o.outline)));
  const holes = core.holes.map((h) => holeSeen(line, h));
  let best: Place | null = null;
  for (let k = 0; k <= PLACES; k++) {
    // from the middle outwards, so that of equals the middle one is kept
    const s = line.length * (0.5 + ((k % 2 === 0 ? 1 : -1) * Math.ceil(k / 2)) / PLACES);
    const room = web + width / 2;
    if (openings.some(({ from, to }) => s > from[0] - room && s < to[0] + room)) continue;
    const across = widthAt(outer, line, s);
    if (across === null) continue;
    const taken = holes.flatMap(({ s: at, t, reach }): Span[] => {
      const square = (room + reach) ** 2 - (at - s) ** 2;
      return square > 0 ? [{ from: t - Math.sqrt(square), to: t + Math.sqrt(square) }] : [];
    });
    const end = tie + width / 2;
    const [span] = freeParts({ from: across.from + end, to: across.to - end }, taken);
    if (span !== undefined && (best === null || span.to - span.from > best.span.to - best.span.from + 0.01)) {
      best = { s, span };
    }
  }
  return best;
}

/** How far the plate reaches across a line at a place on it; null where that is not metal. */
function widthAt(outer: Outline, line: Line, s: number): Span | null {
  const middle = pointOn(line, s, 0);
  if (!outlineContains(outer, middle)) return null;
  const ends = [1, -1].map((way) => {
    const ray = { kind: 'line', from: middle, to: pointOn(line, s, way * 1000) } as const;
    const crossings = sidesOf(outer).flatMap((side) => sideCrossings(ray, side));
    return Math.min(...crossings.map((p) => distance2(p, middle)));
  });
  return { from: -ends[1]!, to: ends[0]! };
}

/** The slot at a place, its ends drawn back until the ties hold all round them; null where little is left. */
function fittedSlot(place: Place, outer: Outline, line: Line, { width, tie }: SlotWish) {
  let { from, to } = place.span;
  for (let guard = 0; guard < 200; guard++) {
    const length = to - from + width;
    if (length < Math.max(LEAST_SLOT.widths * width, LEAST_SLOT.length)) return null;
    const direction = Math.atan2(line.across[1], line.across[0]);
    const outline = slotOutline(pointOn(line, place.s, (from + to) / 2), length, width, direction);
    const { distance, from: near } = outlineToOutline(outline, outer);
    if (distance >= tie - 1e-6) return { length, outline };
    const back = Math.max(tie - distance, 0.05);
    if (cross2(line.along, sub2(near, line.from)) > (from + to) / 2) to -= back;
    else from += back;
  }
  return null;
}

import { outlineContains } from '../../geometry/outline/contains.js';
import { sideCrossings } from '../../geometry/outline/crossings.js';
import { outlineToOutline } from '../../geometry/outline/distance.js';
import { slotOutline } from '../../geometry/outline/make.js';
import { outlineBounds } from '../../geometry/outline/measure.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { sidesOf } from '../../geometry/outline/sides.js';
import { cross2, distance2, sub2 } from '../../geometry/vec2.js';
import type { FlangeCore } from './core.js';
import type { Relief } from './relief.js';
import { freeParts, holeSeen, type Line, linesOf, pointOn, type Span, seenFrom } from './relief-line.js';

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

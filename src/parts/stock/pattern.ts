import type { StockItem } from './bill.js';

/** A piece as nesting sees it: a straight, or a bend with up to two legs. mm and rad. */
export interface PieceShape {
  /** Null for a straight. */
  readonly bend: { readonly clr: number; readonly angle: number } | null;
  /** Of a straight its length is `long`. Of a bend the longer leg and the shorter one. */
  readonly long: number;
  readonly short: number;
}

/** Pieces of one shape. */
export interface PieceClass {
  readonly shape: PieceShape;
  /** How many are wanted. */
  readonly demand: number;
}

/** How the saw cuts, mm. */
export interface Saw {
  readonly kerf: number;
  readonly grip: number;
}

/**
 * Where on an item a piece may lie: on the straight of a stick; on the first or the last leg of a bend (what no bent piece keeps of it);
 * with its leg on the first or the last leg; in the arc alone; over the whole bend, its longer leg first or last.
 */
export type Place = 'stick' | 'leg1' | 'leg2' | 'end1' | 'end2' | 'arc' | 'whole1' | 'whole2';

/** What a piece at a place uses of the item: length of the stick or of a leg with the kerf beside it, mm; angle of the arc with its kerf, rad. */
export interface Load {
  readonly place: Place;
  readonly stick: number;
  readonly leg1: number;
  readonly leg2: number;
  readonly arc: number;
  /** Ends of the bend taken by a leg that stays on a bent piece. */
  readonly ends: readonly [number, number];
}

/** What an item offers, in the same terms. */
export interface Room {
  readonly stick: number;
  readonly leg1: number;
  readonly leg2: number;
  readonly arc: number;
  readonly ends: readonly [number, number];
}

/** What lengths may exceed the stock's by and still be cut from it, mm and rad: far below a saw, above the rounding of sums. */
export const FIT = { length: 1e-6, angle: 1e-9 } as const;

/** No leg, mm. */
const NO_LEG = 1e-6;

/**
 * Angle that one cut takes from a bend, rad: the faces of a radial cut are trued, so the kerf counts where the bend is shortest, at its
 * inside: kerf / (CLR - OD/2).
 */
export const kerfAngle = (kerf: number, clr: number, od: number): number => kerf / (clr - od / 2);

/** What an item offers. The last cut of a stick frees it from the vice; without grip the last piece needs none. */
export function roomOf(item: StockItem, saw: Saw): Room {
  const { bend } = item;
  if (bend === null) {
    const stick = saw.grip > 0 ? item.length - saw.grip : item.length + saw.kerf;
    return { stick, leg1: 0, leg2: 0, arc: 0, ends: [0, 0] };
  }
  const arc = bend.angle + kerfAngle(saw.kerf, bend.clr, item.od);
  return { stick: 0, leg1: bend.leg, leg2: bend.shortLeg, arc, ends: [1, 1] };
}

const NOTHING = { stick: 0, leg1: 0, leg2: 0, arc: 0, ends: [0, 0] as const };

/** Every place of an item a piece of a shape could have were it alone there; none where the item does not make it. */
export function loadsOf(shape: PieceShape, item: StockItem, saw: Saw): readonly Load[] {
  const room = roomOf(item, saw);
  return candidates(shape, item, saw).filter((load) => fits(load, room));
}

function candidates({ bend, long, short }: PieceShape, item: StockItem, saw: Saw): readonly Load[] {
  if (bend === null) {
    const cut = long + saw.kerf;
    if (item.bend === null) return [{ ...NOTHING, place: 'stick', stick: cut }];
    const legs: Load[] = [{ ...NOTHING, place: 'leg1', leg1: cut }];
    return item.bend.shortLeg > 0 ? [...legs, { ...NOTHING, place: 'leg2', leg2: cut }] : legs;
  }
  if (item.bend === null || Math.abs(item.bend.clr - bend.clr) > FIT.length) return [];
  const arc = bend.angle + kerfAngle(saw.kerf, bend.clr, item.od);
  if (long <= NO_LEG) return [{ ...NOTHING, place: 'arc', arc }];
  const end1: Load = { ...NOTHING, place: 'end1', arc, leg1: long, ends: [1, 0] };
  const end2: Load = { ...NOTHING, place: 'end2', arc, leg2: long, ends: [0, 1] };
  if (short <= NO_LEG) return [end1, end2];
  // both legs stay on: only the whole bend has both
  if (Math.abs(bend.angle - item.bend.angle) > FIT.angle) return [];
  const whole: Load = { ...NOTHING, place: 'whole1', arc, leg1: long, leg2: short, ends: [1, 1] };
  return [whole, { ...whole, place: 'whole2', leg1: short, leg2: long }];
}

/** True when a load fits what is left. */
export const fits = (load: Load, room: Room): boolean =>
  load.stick <= room.stick + FIT.length &&
  load.leg1 <= room.leg1 + FIT.length &&
  load.leg2 <= room.leg2 + FIT.length &&
  load.arc <= room.arc + FIT.angle &&
  load.ends[0] <= room.ends[0] &&
  load.ends[1] <= room.ends[1];

/** What is left after a load. */
export const less = (room: Room, load: Load): Room => ({
  stick: room.stick - load.stick,
  leg1: room.leg1 - load.leg1,
  leg2: room.leg2 - load.leg2,
  arc: room.arc - load.arc,
  ends: [room.ends[0] - load.ends[0], room.ends[1] - load.ends[1]],
});

/** Pieces that are cut from one item together: class and place of each. */
export interface Pattern {
  /** Index into the items of the size. */
  readonly item: number;
  readonly cuts: readonly { readonly piece: number; readonly load: Load }[];
}

/** How many pieces of every class a pattern gives. */
export function countsOf(pattern: Pattern): ReadonlyMap<number, number> {
  const counts = new Map<number, number>();
  for (const { piece } of pattern.cuts) counts.set(piece, (counts.get(piece) ?? 0) + 1);
  return counts;
}

/** One text for all patterns that give the same pieces from the same item. */
export const patternKey = (pattern: Pattern): string =>
  `${pattern.item}:${[...countsOf(pattern)]
    .sort(([a], [b]) => a - b)
    .map(([piece, n]) => `${piece}x${n}`)
    .join(',')}`;

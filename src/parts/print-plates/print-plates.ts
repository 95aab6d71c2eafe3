import { shadowOf } from '../../geometry/mesh/shadow.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { JigPlan } from '../../params/plan.js';
import type { SolidPart } from '../part.js';
import { type Packing, packed } from './packing.js';
import { type PrintEstimate, printEstimate, together } from './print-estimate.js';

/** One copy of a part on a build plate: turned about its own middle, then moved; the bed's low corner is the origin. */
export interface LaidPart {
  /** The part. */
  readonly part: SolidPart;
  /** Degrees, counter-clockwise seen from above. */
  readonly turn: number;
  /** mm. */
  readonly by: Vec2;
}

/** Parts that print together. */
export interface PrintPlate {
  /** 'plate-1'. */
  readonly name: string;
  /** What lies on it. */
  readonly parts: readonly LaidPart[];
  /** Share of the bed the parts cover. */
  readonly fill: number;
  /** Plastic and time. */
  readonly estimate: PrintEstimate;
}

/** All build plates, and what did not fit on any. */
export interface PrintPlates {
  /** The plates, the coupon's first. */
  readonly plates: readonly PrintPlate[];
  /** No layout of these parts on such beds uses fewer plates: what their areas ask for. */
  readonly fewest: number;
  /** Too large for the bed. */
  readonly tooBig: readonly SolidPart[];
}

/** How many of a part are printed. */
export interface Copies {
  readonly part: SolidPart;
  readonly count: number;
}

/** The fit coupon on a plate of its own, to be printed first, and the jigs on others. */
export function platesOfMockUp(coupon: readonly SolidPart[], jigs: readonly SolidPart[], jig: JigPlan): PrintPlates {
  const once = (parts: readonly SolidPart[]): Copies[] => parts.map((part) => ({ part, count: 1 }));
  const [first, rest] = [printPlates(once(coupon), jig, 'fit-coupon'), printPlates(once(jigs), jig)];
  return {
    plates: [...first.plates, ...rest.plates],
    fewest: first.fewest + rest.fewest,
    tooBig: [...first.tooBig, ...rest.tooBig],
  };
}

/** Lays parts on as few build plates of the plan's bed as it finds, the plan's gap between them, named `name`-1 and on. */
export function printPlates(
  wanted: readonly Copies[],
  { bed, gap, print }: Pick<JigPlan, 'bed' | 'gap' | 'print'>,
  name = 'plate',
): PrintPlates {
  const standing = wanted.filter(({ part }) => part.size[2] <= bed[2]);
  const copies = standing.flatMap(({ part, count }) => Array.from({ length: count }, () => part));
  const shadows = new Map(standing.map(({ part }) => [part, shadowOf(part.mesh)]));
  const estimates = new Map(standing.map(({ part }) => [part, printEstimate(part.mesh, print)]));
  const list = copies.map((part) => shadows.get(part)!);
  const packing = packed(list, [bed[0], bed[1]], gap);
  const plates = Array.from({ length: packing.plates }, (_, p): PrintPlate => {
    const laid = packing.laid.filter((l) => l.plate === p);
    return {
      name: `${name}-${p + 1}`,
      parts: laid.map(({ item, turn, by }) => ({ part: copies[item]!, turn, by })),
      fill:
        areaOf(
          packing,
          laid.map((l) => l.item),
        ) /
        (bed[0] * bed[1]),
      estimate: together(laid.map((l) => estimates.get(copies[l.item]!)!)),
    };
  });
  const left = new Set(packing.tooBig.map((i) => copies[i]!));
  const tooBig = wanted.map((w) => w.part).filter((part) => left.has(part) || !shadows.has(part));
  return { plates, fewest: packing.bound, tooBig };
}

const areaOf = ({ areas }: Packing, items: readonly number[]): number => items.reduce((sum, i) => sum + areas[i]!, 0);

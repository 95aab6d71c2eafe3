import { degrees } from '../../geometry/angle.js';
import { LENGTH_TOLERANCE } from '../../geometry/tolerance.js';
import { tidy } from '../../params/faults/wording.js';
import type { Plan, StockBend, StockStick } from '../../params/plan.js';
import { inches, type LengthUnit } from '../../params/units.js';
import type { StockItem } from './bill.js';

/** A size of tube in a plan with all stock the plan lists for it. */
export interface SizeStock {
  readonly od: number;
  readonly wall: number;
  /** Bends first, each list in the plan's order. */
  readonly items: readonly StockItem[];
}

/** True for tubes of one size, mm. */
export const sameSize = (a: { od: number; wall: number }, b: { od: number; wall: number }): boolean =>
  Math.abs(a.od - b.od) < LENGTH_TOLERANCE && Math.abs(a.wall - b.wall) < LENGTH_TOLERANCE;

/** The stock of every size of tube in a plan; what is listed twice for one size is one item. */
export function stockOfSizes(plan: Plan): readonly SizeStock[] {
  const { tube, secondaries } = plan;
  const listed = [tube, ...tube.steps, ...(secondaries === null ? [] : [secondaries])];
  const sizes: { od: number; wall: number; items: StockItem[] }[] = [];
  for (const { od, wall, bends, sticks } of listed) {
    const size = { od, wall, material: tube.material };
    const { units } = plan;
    const items = [...bends.map((b) => bendItem(b, size, units)), ...sticks.map((s) => stickItem(s, size, units))];
    const known = sizes.find((s) => sameSize(s, size));
    if (known === undefined) sizes.push({ od, wall, items });
    else known.items.push(...items.filter((i) => !known.items.some((k) => JSON.stringify(k) === JSON.stringify(i))));
  }
  return sizes.map((s) => ({ ...s, items: [...s.items].sort((a, b) => rank(a) - rank(b)) }));
}

const rank = (item: StockItem): number => (item.kind === 'stick' ? 1 : 0);

interface Size {
  readonly od: number;
  readonly wall: number;
  readonly material: string;
}

const offer = (s: { price?: number | undefined; available?: number | undefined }) => ({
  price: s.price ?? null,
  available: s.available ?? null,
});

function bendItem(b: StockBend, size: Size, units: LengthUnit): StockItem {
  const { clr, maxAngle: angle, leg, shortLeg } = b;
  return {
    name: b.name ?? `${b.elbow ?? bendName(b, units)}, ${sizeName(size, units)}`,
    kind: b.elbow === undefined ? 'bend' : 'elbow',
    ...size,
    length: leg + clr * angle + shortLeg,
    bend: { clr, angle, leg, shortLeg },
    ...offer(b),
  };
}

function stickItem(s: StockStick, size: Size, units: LengthUnit): StockItem {
  return {
    name: s.name ?? `stick ${numberIn(s.length, units)} ${units}, ${sizeName(size, units)}`,
    kind: 'stick',
    ...size,
    length: s.length,
    bend: null,
    ...offer(s),
  };
}

/** 'U-bend CLR 63.5, legs 60 mm', 'J-bend CLR 63.5, legs 120 and 40 mm', 'bend 90 deg CLR 38, no legs'; in the plan's unit. */
function bendName({ clr, maxAngle, leg, shortLeg }: StockBend, units: LengthUnit): string {
  const words = (mm: number): string => numberIn(mm, units);
  const angle = String(Number(degrees(maxAngle).toFixed(2)));
  const equal = Math.abs(leg - shortLeg) < LENGTH_TOLERANCE;
  const kind = !equal ? `J-bend ${angle} deg` : angle === '180' ? 'U-bend' : `bend ${angle} deg`;
  const legs =
    leg === 0
      ? 'no legs'
      : equal
        ? `legs ${words(leg)} ${units}`
        : `legs ${words(leg)} and ${words(shortLeg)} ${units}`;
  return `${kind} CLR ${words(clr)}, ${legs}`;
}

const sizeName = ({ od, wall }: Size, units: LengthUnit): string => `${numberIn(od, units)} x ${numberIn(wall, units)}`;

/** A length as a name shows it: short, without its unit. */
const numberIn = (mm: number, units: LengthUnit): string =>
  units === 'in' ? tidy(inches(mm)) : String(Number(mm.toFixed(2)));

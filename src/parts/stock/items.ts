import { degrees } from '../../geometry/angle.js';
import { LENGTH_TOLERANCE } from '../../geometry/tolerance.js';
import type { Plan, StockBend, StockStick } from '../../params/plan.js';
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
    const items = [...bends.map((b) => bendItem(b, size)), ...sticks.map((s) => stickItem(s, size))];
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

function bendItem(b: StockBend, size: Size): StockItem {
  const { clr, maxAngle: angle, leg, shortLeg } = b;
  return {
    name: b.name ?? `${b.elbow ?? bendName(b)}, ${sizeName(size)}`,
    kind: b.elbow === undefined ? 'bend' : 'elbow',
    ...size,
    length: leg + clr * angle + shortLeg,
    bend: { clr, angle, leg, shortLeg },
    ...offer(b),
  };
}

function stickItem(s: StockStick, size: Size): StockItem {
  return {
    name: s.name ?? `stick ${words(s.length)} mm, ${sizeName(size)}`,
    kind: 'stick',
    ...size,
    length: s.length,
    bend: null,
    ...offer(s),
  };
}

/** 'U-bend CLR 63.5, legs 60 mm', 'J-bend CLR 63.5, legs 120 and 40 mm', 'bend 90 deg CLR 38, no legs'. */
function bendName({ clr, maxAngle, leg, shortLeg }: StockBend): string {
  const angle = words(degrees(maxAngle));
  const equal = Math.abs(leg - shortLeg) < LENGTH_TOLERANCE;
  const kind = !equal ? `J-bend ${angle} deg` : angle === '180' ? 'U-bend' : `bend ${angle} deg`;
  const legs = leg === 0 ? 'no legs' : equal ? `legs ${words(leg)} mm` : `legs ${words(leg)} and ${words(shortLeg)} mm`;
  return `${kind} CLR ${words(clr)}, ${legs}`;
}

const sizeName = ({ od, wall }: Size): string => `${words(od)} x ${words(wall)}`;

const words = (n: number): string => String(Number(n.toFixed(2)));

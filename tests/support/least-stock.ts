import type { StockItem } from '../../src/parts/stock/bill.js';
import type { PieceShape, Saw } from '../../src/parts/stock/pattern.js';

/**
 * The least cost to make pieces from items, by trying every way: every subset of the pieces on every item, every end and leg for
 * every piece. Knows nothing of patterns or bounds. For a dozen pieces at most; infinite where they cannot be made.
 */
export function leastStock(
  shapes: readonly PieceShape[],
  items: readonly StockItem[],
  costs: readonly number[],
  saw: Saw,
): number {
  const all = 2 ** shapes.length;
  const single = Array.from({ length: all }, (_, set) => {
    const own = shapes.filter((_s, i) => Math.floor(set / 2 ** i) % 2 === 1);
    return Math.min(...items.map((item, k) => (canCut(own, item, saw) ? costs[k]! : Number.POSITIVE_INFINITY)));
  });
  const best = [0];
  for (let set = 1; set < all; set++) {
    best[set] = Number.POSITIVE_INFINITY;
    for (let part = set; part > 0; part = (part - 1) & set)
      best[set] = Math.min(best[set]!, single[part]! + best[set ^ part]!);
  }
  return best[all - 1]!;
}

function canCut(shapes: readonly PieceShape[], item: StockItem, saw: Saw): boolean {
  const straights = shapes.filter((s) => s.bend === null).map((s) => s.long);
  const bends = shapes.filter((s) => s.bend !== null);
  if (item.bend === null) {
    const cuts = saw.grip > 0 ? straights.length : straights.length - 1;
    return bends.length === 0 && total(straights) + cuts * saw.kerf <= item.length - saw.grip + 1e-6;
  }
  const { clr, angle, leg, shortLeg } = item.bend;
  if (bends.some((b) => Math.abs(b.bend!.clr - clr) > 1e-6)) return false;
  const lost = ((bends.length - 1) * saw.kerf) / (clr - item.od / 2);
  if (total(bends.map((b) => b.bend!.angle)) + lost > angle + 1e-9) return false;
  // which end keeps which leg: every way
  const legged = bends.filter((b) => b.long > 0);
  const ways: [number, number][] = [];
  if (legged.length === 0) ways.push([0, 0]);
  if (legged.length === 1) {
    const [{ long, short, bend }] = legged as [PieceShape];
    if (short > 0 && Math.abs(bend!.angle - angle) > 1e-9) return false;
    ways.push([long, short], [short, long]);
  }
  if (legged.length === 2) {
    const [a, b] = legged as [PieceShape, PieceShape];
    if (a.short > 0 || b.short > 0) return false;
    ways.push([a.long, b.long], [b.long, a.long]);
  }
  return ways.some(([one, two]) => {
    if (one > leg + 1e-6 || two > shortLeg + 1e-6) return false;
    return halves(straights).some(
      ([first, last]) =>
        one + total(first) + first.length * saw.kerf <= leg + 1e-6 &&
        two + total(last) + last.length * saw.kerf <= shortLeg + 1e-6,
    );
  });
}

const total = (of: readonly number[]): number => of.reduce((a, b) => a + b, 0);

/** Every way to share out a list between two. */
function halves(of: readonly number[]): [number[], number[]][] {
  return Array.from({ length: 2 ** of.length }, (_, set) => [
    of.filter((_x, i) => Math.floor(set / 2 ** i) % 2 === 1),
    of.filter((_x, i) => Math.floor(set / 2 ** i) % 2 === 0),
  ]);
}

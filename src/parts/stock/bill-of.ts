import type { Plan } from '../../params/plan.js';
import type { CutPiece } from '../tube/cut-list.js';
import type { StockBill, StockItem, StockUse } from './bill.js';
import { estimatesOf } from './estimates.js';
import { type SizeStock, sameSize, stockOfSizes } from './items.js';
import { layOutUse } from './lay-out.js';
import { type BestNesting, nest } from './nest.js';
import { loadsOf, type PieceClass, type PieceShape, type Saw } from './pattern.js';
import { loadSolver, type Solver } from './solver.js';
import { whyUnmade } from './why-unmade.js';

/** What to buy for the pieces of a header and how to cut it: every size of tube by itself, the least stock of each. */
export async function stockBillOf(plan: Plan, pieces: readonly CutPiece[]): Promise<StockBill> {
  const solver = await loadSolver();
  const sizes = stockOfSizes(plan).map((size) =>
    nestSize(
      plan,
      size,
      pieces.filter((p) => sameSize(p, size)),
      solver,
    ),
  );
  const numbered = sizes.flatMap((s) => s.uses).map((use, i): StockUse => ({ ...use, number: i + 1 }));
  const total = (of: (n: BestNesting) => number): number => sizes.reduce((sum, s) => sum + of(s.nesting), 0);
  const firstFits = sizes.map((s) => s.nesting.firstFit);
  const shopping = shoppingOf(numbered);
  const priced = shopping.every((s) => s.price !== null);
  return {
    uses: numbered,
    shopping,
    minimised: plan.stock.minimise === 'price' ? 'price' : 'count',
    value: total((n) => n.value),
    bound: total((n) => n.bound),
    optimal: sizes.every((s) => s.nesting.optimal),
    firstFit: firstFits.some((f) => f === null) ? null : firstFits.reduce<number>((a, b) => a + b!, 0),
    price: priced ? shopping.reduce((sum, s) => sum + s.price!, 0) : null,
    currency: plan.stock.currency,
    unmade: sizes.flatMap((s) => s.unmade),
    ...estimatesOf(plan, pieces),
  };
}

interface NestedSize {
  readonly nesting: BestNesting;
  readonly uses: readonly StockUse[];
  readonly unmade: StockBill['unmade'];
}

function nestSize(plan: Plan, { items }: SizeStock, pieces: readonly CutPiece[], solver: Solver): NestedSize {
  const saw: Saw = { kerf: plan.stock.kerf, grip: plan.stock.grip };
  const makes = (p: CutPiece): boolean => items.some((item) => loadsOf(shapeOf(p), item, saw).length > 0);
  const unmade = pieces
    .filter((p) => !makes(p))
    .map((p) => ({ piece: p.piece.name, why: whyUnmade(p, items, saw, plan.units) }));
  const groups = groupsOf(pieces.filter(makes));
  if (groups.length === 0) return { nesting: NOTHING, uses: [], unmade };
  const costs = items.map((item) => (plan.stock.minimise === 'price' ? item.price! : 1));
  const classes = groups.map((g): PieceClass => ({ shape: shapeOf(g[0]!), demand: g.length }));
  const nesting = nest({ items, costs, classes, saw }, solver);
  const waiting = groups.map((g) => [...g]);
  const uses = [...nesting.patterns]
    .sort((a, b) => a.item - b.item)
    .map((pattern, i) => {
      const cut = pattern.cuts.map(({ piece }) => waiting[piece]!.shift()!);
      return layOutUse(i + 1, items[pattern.item]!, pattern, cut, saw, plan.stock.leastOffcut);
    });
  const short = waiting
    .flat()
    .map((p) => ({ piece: p.piece.name, why: 'there is not enough of the stock that makes it' }));
  return { nesting, uses, unmade: [...unmade, ...short] };
}

const NOTHING: BestNesting = { patterns: [], short: [], value: 0, bound: 0, optimal: true, firstFit: 0 };

/** A piece as nesting sees it. */
function shapeOf({ angle, clr, cutLegBefore, cutLegAfter }: CutPiece): PieceShape {
  if (angle === null || clr === null) return { bend: null, long: cutLegBefore, short: 0 };
  return {
    bend: { clr, angle },
    long: Math.max(cutLegBefore, cutLegAfter),
    short: Math.min(cutLegBefore, cutLegAfter),
  };
}

/** Pieces of the same shape together, in the order of the first of each. */
function groupsOf(pieces: readonly CutPiece[]): CutPiece[][] {
  const groups = new Map<string, CutPiece[]>();
  for (const p of pieces) {
    const { bend, long, short } = shapeOf(p);
    const key = [bend?.clr ?? 0, bend?.angle ?? 0, long, short].map((n) => n.toFixed(9)).join(' ');
    groups.set(key, [...(groups.get(key) ?? []), p]);
  }
  return [...groups.values()];
}

/** Items of a kind together, in the order of use. */
function shoppingOf(uses: readonly StockUse[]): StockBill['shopping'] {
  const counts = new Map<StockItem, number>();
  for (const { item } of uses) counts.set(item, (counts.get(item) ?? 0) + 1);
  return [...counts].map(([item, count]) => ({
    item,
    count,
    price: item.price === null ? null : Math.round(item.price * count * 1e6) / 1e6,
  }));
}

import type { StockBill, StockUse } from '../../src/parts/stock/bill.js';
import type { Saw } from '../../src/parts/stock/pattern.js';
import type { CutPiece } from '../../src/parts/tube/cut-list.js';

/** What positions may miss by, mm: the rounding of sums. */
const SLACK = 1e-5;

/**
 * What is wrong with a bill, one sentence each; empty when it can be sawn as it says. Looks at the cuts alone and knows nothing of how
 * they were found: every piece once or unmade, inside its item, a kerf apart, legs on legs and arcs on arcs, the vice's grip left, and
 * what there is of each item.
 */
export function billFaults(bill: StockBill, pieces: readonly CutPiece[], saw: Saw): string[] {
  const cut = bill.uses.flatMap((u) => u.cuts.map((c) => c.piece));
  const told = [...cut, ...bill.unmade.map((u) => u.piece)].sort();
  const wanted = pieces.map((p) => p.piece.name).sort();
  const faults = JSON.stringify(told) === JSON.stringify(wanted) ? [] : ['not every piece is there exactly once'];
  const byName = new Map(pieces.map((p) => [p.piece.name, p]));
  for (const use of bill.uses) {
    const fault = (what: string) => faults.push(`stock ${use.number} (${use.item.name}): ${what}`);
    if (use.cuts.length === 0) fault('nothing is cut from it');
    use.cuts.forEach((c, i) => {
      const piece = byName.get(c.piece)!;
      if (c.from < -SLACK || c.to > use.item.length + SLACK) fault(`${c.piece} reaches beyond it`);
      if (Math.abs(c.to - c.from - piece.cutLength) > SLACK) fault(`${c.piece} is not as long as wanted`);
      if (piece.od !== use.item.od || piece.wall !== use.item.wall) fault(`${c.piece} is of another size`);
      if (!liesRight(piece, c, use)) fault(`${c.piece} does not have its legs and its bend where they are`);
      const before = use.cuts[i - 1];
      if (before !== undefined && cutsBetween(before.to, c.from, use, saw) < 1 - SLACK) {
        fault(`no room for the saw between ${before.piece} and ${c.piece}`);
      }
    });
    const end = Math.max(...use.cuts.map((c) => c.to));
    if (use.item.bend === null && saw.grip > 0 && end + saw.kerf > use.item.length - saw.grip + SLACK) {
      fault('the vice has nothing to hold');
    }
  }
  for (const { item, count } of bill.shopping) {
    if (bill.uses.filter((u) => u.item === item).length !== count) faults.push(`${item.name}: count and uses differ`);
    if (item.available !== null && count > item.available) faults.push(`${item.name}: more than there are`);
  }
  return faults;
}

/** True when the straights of a piece lie on straights of the item and its arc on the arc. */
function liesRight(piece: CutPiece, cut: StockUse['cuts'][number], { item }: StockUse): boolean {
  const { bend } = item;
  if (bend === null) return piece.angle === null;
  const [arcFrom, arcTo] = [bend.leg, bend.leg + bend.clr * bend.angle];
  if (piece.angle === null) return cut.to <= arcFrom + SLACK || cut.from >= arcTo - SLACK;
  if (Math.abs(piece.clr! - bend.clr) > SLACK) return false;
  const [before, after] = cut.reversed
    ? [piece.cutLegAfter, piece.cutLegBefore]
    : [piece.cutLegBefore, piece.cutLegAfter];
  const [from, to] = [cut.from + before, cut.to - after];
  if (from < arcFrom - SLACK || to > arcTo + SLACK) return false;
  return (before < SLACK || Math.abs(from - arcFrom) < SLACK) && (after < SLACK || Math.abs(to - arcTo) < SLACK);
}

/** How many saw cuts there is room for between two places of an item. A cut across the arc is as wide as the kerf at the inside of the bend. */
function cutsBetween(from: number, to: number, { item }: StockUse, { kerf }: Saw): number {
  if (to < from - SLACK) return -1;
  if (kerf === 0) return 1;
  if (item.bend === null) return (to - from) / kerf;
  const { clr, leg, angle } = item.bend;
  const onArc = Math.max(0, Math.min(to, leg + clr * angle) - Math.max(from, leg));
  return (to - from - onArc) / kerf + (onArc * (1 - item.od / 2 / clr)) / kerf;
}

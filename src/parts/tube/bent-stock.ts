import type { StockBend } from '../../params/plan.js';

/** A bend with its straight legs, as it is cut from bent stock. mm and rad. */
export interface LeggedBend {
  readonly clr: number;
  readonly angle: number;
  readonly legBefore: number;
  readonly legAfter: number;
}

/** Two radii this close are the same stock, mm. */
const SAME_CLR = 1e-6;

/** Two angles this close are the same, rad. */
const SAME_ANGLE = 1e-9;

/** Lengths up to this are no leg, mm. */
const NO_LEG = 1e-6;

/**
 * True when a bend with its legs can be cut from one piece of bent stock. A leg stands at the end of the stock's own bend: less
 * than the whole bend keeps at most one leg, only the whole one keeps both.
 */
export function cutFrom(piece: LeggedBend, stock: StockBend): boolean {
  if (Math.abs(piece.clr - stock.clr) > SAME_CLR || piece.angle > stock.maxAngle + SAME_ANGLE) return false;
  const [long, short] = [Math.max(piece.legBefore, piece.legAfter), Math.min(piece.legBefore, piece.legAfter)];
  if (long > stock.leg + NO_LEG) return false;
  if (short <= NO_LEG) return true;
  return Math.abs(piece.angle - stock.maxAngle) <= SAME_ANGLE && short <= stock.shortLeg + NO_LEG;
}

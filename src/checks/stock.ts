import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/**
 * Every piece against the stock of the plan. A piece that none makes wants a look and breaks nothing: the design holds, the shop needs
 * other stock. Nothing is said before the stock is nested.
 */
export function stockMakes({ bill }: CheckContext): Finding[] {
  if (bill === null) return [];
  const made = bill.uses.reduce((sum, u) => sum + u.cuts.length, 0);
  const finding = { id: 'stock.makeable', value: 0, limit: 0, unit: 'count' } as const;
  if (bill.unmade.length === 0) {
    return [{ ...finding, level: 'ok', place: 'stock', message: `The stock of the plan makes all ${made} pieces.` }];
  }
  return bill.unmade.map(({ piece, why }) => ({
    ...finding,
    level: 'warn',
    place: `piece ${piece}`,
    value: 1,
    message: `No stock of the plan makes this piece: ${why}. List stock that makes it under bends or sticks of its tube, or a larger available.`,
  }));
}

import type { StockBill } from '../../parts/stock/bill.js';

/** The stock in one line: 'Stock: 7 pieces (5 x U-bend ..., 2 x stick ...), proven fewest (first-fit takes 8).' */
export function stockLine(bill: StockBill): string {
  const count = bill.uses.length;
  const kinds = bill.shopping.map((s) => `${s.count} x ${s.item.name}`).join('; ');
  const priced = bill.price === null ? '' : `, ${money(bill.price, bill)}`;
  const unmade = bill.unmade.length > 0 ? `; no stock for ${bill.unmade.map((u) => u.piece).join(', ')}` : '';
  if (count === 0) return `Stock: none${unmade}.`;
  return `Stock: ${count} ${count === 1 ? 'piece' : 'pieces'} (${kinds})${priced}, ${proof(bill)}${unmade}.`;
}

function proof(bill: StockBill): string {
  const { minimised, optimal, bound, firstFit, value } = bill;
  const words = (amount: number): string => (minimised === 'price' ? money(amount, bill) : String(amount));
  const least = minimised === 'price' ? 'cheapest' : 'fewest';
  const plain = firstFit === null || firstFit <= value ? '' : ` (first-fit takes ${words(firstFit)})`;
  if (optimal) return `proven ${least}${plain}`;
  const low = minimised === 'price' ? words(bound) : String(Math.ceil(bound - 1e-6));
  return `not proven ${least}: no less than ${low}${plain}`;
}

const money = (amount: number, { currency }: StockBill): string =>
  `${amount.toFixed(2)}${currency === null ? '' : ` ${currency}`}`;

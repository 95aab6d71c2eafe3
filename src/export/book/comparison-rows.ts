import { spreadOf } from '../../checks/equal-length.js';
import type { Finding } from '../../checks/finding.js';
import type { StockBill } from '../../parts/stock/bill.js';
import { type AlternativeSource, alternativeOf } from '../csv/alternatives.js';

/** A header to be laid beside others. */
export interface Variant extends AlternativeSource {
  /** Short, different from the others' names: 'A', 'set 2'. */
  readonly label: string;
  readonly findings: readonly Finding[];
  readonly passed: boolean;
  readonly verdict: string;
  readonly bill: StockBill;
}

/** One quantity of every variant; null where a variant has none. */
export interface ComparedRow {
  /** What is compared. */
  readonly name: string;
  /** 'mm', 'deg', 'kg', a currency, or '' for a count. */
  readonly unit: string;
  /** Digits after the point. */
  readonly digits: number;
  /** One for each header in its order; null where it has none. */
  readonly values: readonly (number | null)[];
}

/** What tells headers apart, in the order a fabricator asks; what none of them has is left out. */
export function comparedRows(variants: readonly Variant[]): ComparedRow[] {
  const routes = variants.map((v, i) => alternativeOf(v, i + 1));
  const row = (name: string, unit: string, digits: number, values: ComparedRow['values']): ComparedRow => ({
    name,
    unit,
    digits,
    values,
  });
  const bills = variants.map((v) => v.bill);
  const currencies = [...new Set(bills.map((b) => b.currency).filter((c) => c !== null))];
  const rows = [
    row(
      'length of the primaries',
      'mm',
      1,
      routes.map((r) => r.length_mm),
    ),
    row(
      'spread',
      'mm',
      3,
      variants.map((v) => spreadOf(v.primaries.map((p) => p.length))),
    ),
    row(
      'least gap',
      'mm',
      2,
      routes.map((r) => r.least_gap_mm),
    ),
    row(
      'bends',
      '',
      0,
      routes.map((r) => r.bends),
    ),
    row(
      'turning, all bends together',
      'deg',
      1,
      routes.map((r) => r.turning_deg),
    ),
    row(
      'least CLR',
      'mm',
      1,
      routes.map((r) => r.least_clr_mm),
    ),
    row(
      'pieces of tube',
      '',
      0,
      routes.map((r) => r.pieces),
    ),
    row(
      'pieces of stock',
      '',
      0,
      bills.map((b) => b.uses.length),
    ),
    row(
      'mass of the tubes',
      'kg',
      2,
      bills.map((b) => b.tubeMass),
    ),
    row(
      'weld length',
      'mm',
      0,
      bills.map((b) => b.weldLength),
    ),
    row('price of the stock', currencies.length === 1 ? currencies[0]! : '', 2, pricesIn(bills, currencies)),
    row(
      'checks that fail',
      '',
      0,
      variants.map((v) => count(v.findings, 'fail')),
    ),
    row(
      'checks to look at',
      '',
      0,
      variants.map((v) => count(v.findings, 'warn')),
    ),
  ];
  return rows.filter((r) => r.values.some((v) => v !== null));
}

/** Prices in different currencies are not laid beside each other. */
const pricesIn = (bills: readonly StockBill[], currencies: readonly string[]): (number | null)[] =>
  bills.map((b) => (currencies.length > 1 ? null : b.price));

const count = (findings: readonly Finding[], level: Finding['level']): number =>
  findings.filter((f) => f.level === level).length;

import type { Finding } from '../../checks/finding.js';
import type { Plan } from '../../params/plan.js';
import type { Collector } from '../../parts/collector/collector.js';
import type { FlangePart } from '../../parts/flange/flange.js';
import type { Pattern } from '../../parts/patterns/pattern.js';
import type { StockBill } from '../../parts/stock/bill.js';
import type { TubeCuts } from '../../parts/tube/tube-cuts.js';
import type { Gap } from '../../routing/clearance.js';
import type { RoutedPrimary, RoutedSecondary } from '../../routing/routed.js';

/** What the shop sheets tell of. */
export interface SheetInput {
  readonly plan: Plan;
  readonly primaries: readonly RoutedPrimary[];
  readonly secondaries: readonly RoutedSecondary[];
  readonly gaps: readonly Gap[];
  readonly flanges: readonly FlangePart[];
  readonly collectors: readonly Collector[];
  readonly cuts: readonly TubeCuts[];
  /** Null where no stock was worked out. */
  readonly bill: StockBill | null;
  readonly patterns: readonly Pattern[];
  readonly findings: readonly Finding[];
  readonly passed: boolean;
  /** The verdict in one line. */
  readonly verdict: string;
}

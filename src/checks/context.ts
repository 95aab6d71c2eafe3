import type { Plan } from '../params/plan.js';
import type { FlangePart } from '../parts/flange/flange.js';
import type { HolderStiffness } from '../parts/jigs/holder-stiffness.js';
import type { AssemblyProof } from '../parts/jigs/proof.js';
import type { SolidPart } from '../parts/part.js';
import type { StockBill } from '../parts/stock/bill.js';
import type { Gap } from '../routing/clearance.js';
import type { RouteProblem } from '../routing/problem.js';
import type { RoutedPrimary, RoutedSecondary } from '../routing/routed.js';

/** What the rules look at: the design as it came out. */
export interface CheckContext {
  readonly plan: Plan;
  readonly problem: RouteProblem;
  readonly primaries: readonly RoutedPrimary[];
  readonly secondaries: readonly RoutedSecondary[];
  readonly gaps: readonly Gap[];
  /** True when the search for routes was stopped before its work was done. */
  readonly cutShort?: boolean;
  readonly flanges: readonly FlangePart[];
  readonly jigs: readonly SolidPart[];
  /** Where the mock-up cannot stand by itself; none where no solids were built. */
  readonly jigNotes: readonly string[];
  /** Null before the stock is nested. */
  readonly bill: StockBill | null;
  /** Where a jig for the bench is left out; left out where no solids were built. */
  readonly benchNotes?: readonly string[];
  /** The mock-up put together in numbers; left out where no solids were built. */
  readonly proof?: AssemblyProof;
  /** How stiff the collectors' holders are; none where no solids were built. */
  readonly holders?: readonly HolderStiffness[];
}

import type { Plan } from '../../params/plan.js';
import type { SweepResult } from '../../tuning/engine/results.js';
import { tuningInputs } from '../../tuning/formulas/tuning-inputs.js';
import { type Rarefaction, returnBand, type SpeedBand } from '../../tuning/formulas/wave-return.js';
import { existingPath } from '../gas-path/existing-path.js';
import type { GasSystem } from '../gas-path/gas-way.js';
import { type HeaderRoutes, headerPath } from '../gas-path/header-path.js';
import { openHousing } from '../gas-path/open-housing.js';
import { auditOf, type PathAudit } from '../gas-path/path-audit.js';
import type { Exploration } from './exploration.js';
import { type SweepFigures, sweepFigures } from './sweep-comparison.js';

/** The exhausts of a plan, measured and, once they have been run, calculated. */
export interface Comparison {
  readonly header: PathAudit;
  /** Null where the plan describes none. */
  readonly existing: PathAudit | null;
  readonly timing: readonly WaveBand[];
  /** By the name of the system; empty until the gas has been calculated. */
  readonly sweeps: readonly SweepFigures[];
  readonly assumptions: readonly string[];
  /** Null until other lengths were searched. */
  readonly exploration: Exploration | null;
}

/** Engine speeds at which the front of the first and of the second rarefaction is back within the overlap, over all cylinders; null without valve events or overlap. */
export interface WaveBand {
  readonly system: string;
  readonly first: SpeedBand | null;
  readonly second: SpeedBand | null;
}

/** Every exhaust of a plan as ways of the gas: the header as routed, at equal lengths where that differs, with an open housing where a turbine is divided, and the existing manifold. */
export function gasSystems(header: HeaderRoutes): GasSystem[] {
  const routed = headerPath(header, 'as routed');
  const { existing } = header.plan;
  const off = header.primaries.some((p) => Math.abs(p.length - p.target) > LENGTH_THAT_COUNTS);
  const divided = routed.end.kind === 'turbine' && routed.ways.filter((w) => w.to === 'end').length > 1;
  return [
    routed,
    ...(off ? [headerPath(header, 'equal lengths')] : []),
    ...(divided ? [openHousing(routed)] : []),
    ...(existing === null ? [] : [existingPath(header.plan, existing)]),
  ];
}

/** Off its target by less than this, a tube counts as equal, mm: far below what a wave can tell. */
const LENGTH_THAT_COUNTS = 0.05;

/** Measures the exhausts of a header and gathers what was calculated of them. */
export function comparisonOf(
  header: HeaderRoutes,
  sweeps: readonly SweepResult[] = [],
  exploration: Exploration | null = null,
): Comparison {
  const systems = gasSystems(header);
  const existing = systems.find((s) => s.name === EXISTING) ?? null;
  const audits = [systems[0]!, ...(existing === null ? [] : [existing])].map(auditOf);
  return {
    header: audits[0]!,
    existing: audits[1] ?? null,
    timing: audits.map((a) => ({
      system: a.system,
      first: bandOf(header.plan, a, 1),
      second: bandOf(header.plan, a, 2),
    })),
    sweeps: sweeps.map(sweepFigures),
    exploration,
    assumptions: [...new Set(sweeps.flatMap((s) => s.assumptions))],
  };
}

/** The existing manifold's name among the systems. */
export const EXISTING = 'existing manifold';

function bandOf(plan: Plan, { cylinders }: PathAudit, which: Rarefaction): SpeedBand | null {
  const found = tuningInputs(plan);
  if (!found.ok) return null;
  const bands = cylinders.map((c) => returnBand(found.inputs, c.runner, which)).filter((b) => b !== null);
  if (bands.length === 0) return null;
  return { from: Math.min(...bands.map((b) => b.from)), to: Math.max(...bands.map((b) => b.to)) };
}

/** Longest and shortest way from valve to joint, mm. */
export const runnersOf = ({ cylinders }: PathAudit): { readonly least: number; readonly most: number } => ({
  least: Math.min(...cylinders.map((c) => c.runner)),
  most: Math.max(...cylinders.map((c) => c.runner)),
});

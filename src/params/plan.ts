import type { CollectorPlan } from './plan/collector.js';
import type { DrawingPlan } from './plan/drawing.js';
import type { Engine } from './plan/engine.js';
import type { ExistingManifold } from './plan/existing.js';
import type { FlangePlan } from './plan/flange.js';
import type { Head, Port } from './plan/head.js';
import type { JigPlan } from './plan/jig.js';
import type { PatternPlan } from './plan/patterns.js';
import type { GasketsPlan, PlatePlan } from './plan/plates.js';
import type { RunnersPlan } from './plan/runners.js';
import type { Access, KeepOut } from './plan/space.js';
import type { StockPlan } from './plan/stock.js';
import type { SecondaryPlan, TubePlan } from './plan/tube.js';
import type { TuningPlan } from './plan/tuning.js';
import type { WeldPlan } from './plan/weld.js';

export type * from './plan/collector.js';
export type * from './plan/drawing.js';
export type * from './plan/engine.js';
export type * from './plan/existing.js';
export type * from './plan/flange.js';
export type * from './plan/head.js';
export type * from './plan/jig.js';
export type * from './plan/patterns.js';
export type * from './plan/plates.js';
export type * from './plan/runners.js';
export type * from './plan/space.js';
export type * from './plan/stock.js';
export type * from './plan/tube.js';
export type * from './plan/tuning.js';
export type * from './plan/weld.js';

/** A plan as every later stage sees it: validated, millimetres, radians, unit directions, defaults filled in. */
export interface Plan {
  readonly name: string;
  /** SHA-256 of the plan's text and of the files it names, in hex: says which plan a paper belongs to. */
  readonly hash: string;
  /** Unit the plan was written in: what people's reports use beside mm. */
  readonly units: 'mm' | 'in';
  readonly engine: Engine;
  readonly heads: readonly Head[];
  /** Every port of every head, by cylinder number. */
  readonly ports: readonly Port[];
  readonly flange: FlangePlan;
  readonly tube: TubePlan;
  readonly collectors: readonly CollectorPlan[];
  readonly runners: RunnersPlan;
  /** Tubes from one collector's outlet to the next collector; null when no collector feeds another. */
  readonly secondaries: SecondaryPlan | null;
  readonly keepOuts: readonly KeepOut[];
  /** Room for spark plug and flange bolt tools. */
  readonly access: readonly Access[];
  readonly jig: JigPlan;
  /** What reading the files it names found: gaps closed, points fitted; one sentence each. */
  readonly notes: readonly string[];
  /** Plates beside the head flanges: collector, turbine inlet, rings, slip joints. */
  readonly plates: readonly PlatePlan[];
  /** Null when none are wanted. */
  readonly gaskets: GasketsPlan | null;
  readonly drawing: DrawingPlan;
  readonly weld: WeldPlan;
  readonly stock: StockPlan;
  readonly patterns: PatternPlan;
  readonly tuning: TuningPlan;
  /** The manifold the builder has; null when it is not described. */
  readonly existing: ExistingManifold | null;
}

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
  /** What the plan calls the header. */
  readonly name: string;
  /** SHA-256 of the plan's text and of the files it names, in hex: says which plan a paper belongs to. */
  readonly hash: string;
  /** Unit the plan was written in: what people's reports use beside mm. */
  readonly units: 'mm' | 'in';
  /** The engine it is for. */
  readonly engine: Engine;
  /** The head faces the ports are in. */
  readonly heads: readonly Head[];
  /** Every port of every head, by cylinder number. */
  readonly ports: readonly Port[];
  /** How flanges are cut. */
  readonly flange: FlangePlan;
  /** Tube of the primaries and the stock it is made of. */
  readonly tube: TubePlan;
  /** Every collector, those that feed others included. */
  readonly collectors: readonly CollectorPlan[];
  /** What the primaries must keep. */
  readonly runners: RunnersPlan;
  /** Tubes from one collector's outlet to the next collector; null when no collector feeds another. */
  readonly secondaries: SecondaryPlan | null;
  /** Space no tube may enter. */
  readonly keepOuts: readonly KeepOut[];
  /** Room for spark plug and flange bolt tools. */
  readonly access: readonly Access[];
  /** How the mock-up is printed. */
  readonly jig: JigPlan;
  /** What reading the files it names found: gaps closed, points fitted; one sentence each. */
  readonly notes: readonly string[];
  /** Plates beside the head flanges: collector, turbine inlet, rings, slip joints. */
  readonly plates: readonly PlatePlan[];
  /** Null when none are wanted. */
  readonly gaskets: GasketsPlan | null;
  /** How flat parts are drawn. */
  readonly drawing: DrawingPlan;
  /** What welds add and take. */
  readonly weld: WeldPlan;
  /** How stock is cut. */
  readonly stock: StockPlan;
  /** How developments are laid flat. */
  readonly patterns: PatternPlan;
  /** What the published rules reckon with. */
  readonly tuning: TuningPlan;
  /** The manifold the builder has; null when it is not described. */
  readonly existing: ExistingManifold | null;
}

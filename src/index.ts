/** The library: read a plan, route and check a header, build its parts, and get every file as bytes. Nothing here touches the disk. */

export { checkedSummary } from './checked-summary.js';
export type { Finding, FindingLevel } from './checks/finding.js';
export { type Compared, type Comparison, compareHeaders } from './compare.js';
export type { BookPage } from './export/book/book-input.js';
export type { BookSection } from './export/book/book-section.js';
export type { ComparedRow } from './export/book/comparison-rows.js';
export type { OutputFile, OutputKind } from './export/output-file.js';
export type { AsBuiltSummary } from './export/summary/as-built-schema.js';
export { type Summary, summaryJsonSchema } from './export/summary/summary-schema.js';
export type { Frame } from './geometry/frame.js';
export type { Mesh } from './geometry/mesh/mesh.js';
export type { Outline, OutlineVertex } from './geometry/outline/outline.js';
export type { ControlPolygon } from './geometry/path/control-polygon.js';
export { type Lra, type LraRow, lraFromPolygon } from './geometry/path/lra.js';
export type { Bend, Path, PathSegment, Straight } from './geometry/path/path.js';
export type { Plane } from './geometry/plane.js';
export type { Vec2 } from './geometry/vec2.js';
export type { Vec3 } from './geometry/vec3.js';
export { asBuiltForm, type MeasuredHeader, measureHeader } from './measure.js';
export { type Outputs, outputsOf } from './outputs.js';
export type { PlanFault, PlanPath, PlanProblem } from './params/faults/plan-problem.js';
export { asBuiltJsonSchema, planJsonSchema } from './params/json-schema.js';
export type {
  BranchPlan,
  CollectorFreedom,
  CollectorOutlet,
  CollectorPlan,
  InletOrder,
  SlipPlan,
  ThroatPlan,
} from './params/plan/collector.js';
export type { DrawingPlan, SheetPlan } from './params/plan/drawing.js';
export type { CamTiming, Engine, EngineLayout } from './params/plan/engine.js';
export type { ExistingBend, ExistingManifold, ExistingPipe } from './params/plan/existing.js';
export type {
  CutClass,
  DowelPlan,
  FlangeMetal,
  FlangePlan,
  FlangeStyle,
  GrowthPlan,
  HeadMetal,
  NotchPlan,
  OpeningPlan,
} from './params/plan/flange.js';
export type { FlangeBolt, Head, HeadBody, Port } from './params/plan/head.js';
export type { BenchPlan, BlockBolt, JigFoot, JigHolder, JigPlan, PrintPlan } from './params/plan/jig.js';
export type { FabricatedPiece, PatternPlan, SheetPiece, TubePiece } from './params/plan/patterns.js';
export type { GasketsPlan, PlateBolts, PlatePattern, PlatePlan, PlateThroat } from './params/plan/plates.js';
export type { GivenRoute, RouteWeights, RunnersPlan } from './params/plan/runners.js';
export type { Access, KeepOut, KeepOutCommon } from './params/plan/space.js';
export type { StockBend, StockPlan, StockStick } from './params/plan/stock.js';
export type { SecondaryPlan, TubePlan, TubeStep } from './params/plan/tube.js';
export type { TuningPlan, TurbinePlan } from './params/plan/tuning.js';
export type { WeldPlan } from './params/plan/weld.js';
export type { Plan } from './params/plan.js';
export { type ReadPlan, readPlan } from './params/read-plan.js';
export type { ReadFile } from './params/scans.js';
export type { LengthUnit } from './params/units.js';
export type { BranchCut, BranchHost } from './parts/collector/branch-cut.js';
export type { Collector } from './parts/collector/collector.js';
export type { InletCut } from './parts/collector/inlet-cut.js';
export type {
  CollectorGeometry,
  CollectorSlip,
  CollectorSpike,
  CollectorThroat,
} from './parts/collector/merge-geometry.js';
export type { BoltGrowth } from './parts/flange/growth.js';
export type { LedgePoint, LedgeProfile } from './parts/flange/ledge.js';
export type { NotchDone } from './parts/flange/notch.js';
export type { Blend, OpeningFlow } from './parts/flange/opening.js';
export type { FlangeContour, FlangePart } from './parts/flange/part.js';
export type { FlangeDowel, FlangeHole, FlangeOpening, FlangeRegion } from './parts/flange/region.js';
export type { Relief } from './parts/flange/relief.js';
export type { HeaderRoutes } from './parts/gas-path/header-path.js';
export type { PartKind, SolidPart } from './parts/part.js';
export type { Pattern, PatternLine } from './parts/patterns/pattern.js';
export type { PrintEstimate } from './parts/print-plates/print-estimate.js';
export type { LaidPart, PrintPlate, PrintPlates } from './parts/print-plates/print-plates.js';
export type { StockBill, StockItem, StockUse } from './parts/stock/bill.js';
export type { CutPiece } from './parts/tube/cut-list.js';
export type { Joint } from './parts/tube/joint.js';
export type { Piece } from './parts/tube/pieces.js';
export type { TubeCuts } from './parts/tube/tube-cuts.js';
export {
  type BuiltHeader,
  buildHeader,
  type Progress,
  type RoutedHeader,
  type Routing,
  routeHeader,
  verdictOf,
} from './pipeline.js';
export type { BrokenLimit } from './routing/broken-limits.js';
export type { Gap } from './routing/clearance.js';
export type { LimitKind } from './routing/limits.js';
export type { Clock, Miss, NearestTube } from './routing/miss.js';
export type { Relaxation } from './routing/relaxations.js';
export type { RoutedPrimary, RoutedSecondary, RoutedSection, RoutedTube } from './routing/routed.js';
export type { SolveOptions } from './routing/solve.js';
export { type SweepWish, sweepsOf, type Tuning, tuningFiles, tuningOf, tuningSections } from './tune.js';
export type {
  Convergence,
  CylinderResult,
  OutletResult,
  RpmResult,
  SweepResult,
  ValveEvents,
} from './tuning/engine/results.js';
export type { TubeOnOffer } from './tuning/formulas/nearest-tube.js';
export type { RuleInput, Spread } from './tuning/formulas/rule.js';
export type { ProposedStep } from './tuning/formulas/steps.js';
export type { TuningInputs } from './tuning/formulas/tuning-inputs.js';
export type { Reckoned, ReckonedLength, TuningTable, WaveTiming } from './tuning/formulas/tuning-table.js';
export type { SpeedBand } from './tuning/formulas/wave-return.js';

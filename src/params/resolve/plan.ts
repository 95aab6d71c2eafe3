import type { Mesh } from '../../geometry/mesh/mesh.js';
import type { Engine, Head, HeadBody, Plan, RunnersPlan } from '../plan.js';
import type { PlanFile } from '../schema/plan-file.js';
import { type BoltFit, clearanceHole, threadDiameter } from '../tables/bolt-holes.js';
import { socketDiameter } from '../tables/socket-diameters.js';
import { accessOf } from './access.js';
import { collectorPlan } from './collector-plan.js';
import { feedsAnother, type PlacedCollector, placedCollectors } from './collectors.js';
import { drawingOf } from './drawing.js';
import { flangeOf } from './flange.js';
import { routePolygon } from './given-route.js';
import { type PlacedHead, placedHeads } from './heads.js';
import { jigOf } from './jig.js';
import { keepOutsOf } from './keep-outs.js';
import { patternsOf } from './patterns.js';
import { gasketsOf, platesOf } from './plates.js';
import { type PlacedPort, placedPorts } from './ports.js';
import type { PlanSections } from './sections.js';
import { lastSize, secondariesOf, stockPlanOf, tubeOf } from './tubes.js';
import { existingOf, tuningOf } from './tuning.js';

/** The plan of a file that every rule has passed. `scans` holds the mesh, in the world, of every keep-out that names a file, by its place in the list; `notes` is what reading the traces found; `hash` names its text. */
export function planOf(
  file: PlanSections,
  scans: ReadonlyMap<number, Mesh>,
  notes: readonly string[],
  hash: string,
): Plan {
  const heads = placedHeads(file);
  const ports = placedPorts(heads);
  const collectors = placedCollectors(
    file,
    ports.map((p) => p.port.cylinder),
  );
  return {
    name: file.name,
    hash,
    units: file.units,
    engine: engineOf(file.engine),
    heads: heads.map((h) => headOf(h, file.flange.bolt_fit)),
    ports: ports.map((p) => p.port).sort((a, b) => a.cylinder - b.cylinder),
    flange: flangeOf(file.flange, file.tube.wall),
    tube: tubeOf(file.tube),
    collectors: collectors.map((c) =>
      collectorPlan(c, outletWall(c, collectors, file), c.from.length > 0 ? file.secondaries! : lastSize(file.tube)),
    ),
    runners: runnersOf(file.runners, ports),
    secondaries: file.secondaries === undefined ? null : secondariesOf(file.secondaries),
    keepOuts: keepOutsOf(file, scans),
    access: accessOf(heads, file.access, file.flange.thickness),
    notes,
    jig: jigOf(
      file.jig,
      file.units,
      collectors.map((c) => c.name),
    ),
    plates: platesOf(file, (name) => {
      const c = collectors.find((other) => other.name === name)!;
      return { od: c.section.outlet.od, wall: c.section.outlet.wall ?? outletWall(c, collectors, file) };
    }),
    gaskets: gasketsOf(file.gaskets),
    drawing: drawingOf(file.drawing, file.units),
    weld: file.weld,
    stock: stockPlanOf(file.stock),
    patterns: patternsOf(file),
    tuning: tuningOf(file.tuning),
    existing: file.existing === undefined ? null : existingOf(file.existing),
  };
}

/** The wall of an outlet that has none of its own: of the secondary that leaves, or of the tubes that join. */
function outletWall(c: PlacedCollector, all: readonly PlacedCollector[], file: PlanSections): number {
  const secondary = c.from.length > 0 || feedsAnother(c, all) ? file.secondaries : undefined;
  return (secondary ?? lastSize(file.tube)).wall;
}

function engineOf(e: PlanFile['engine']): Engine {
  return {
    cylinders: e.cylinders,
    layout: e.layout,
    firingOrder: e.firing_order,
    bore: e.bore,
    stroke: e.stroke,
    bankAngle: e.bank_angle ?? (e.layout === 'flat' ? Math.PI : 0),
    compressionRatio: e.compression_ratio ?? null,
    cam:
      e.cam === undefined
        ? null
        : {
            exhaustOpensBeforeBdc: e.cam.exhaust_opens_bbdc,
            exhaustClosesAfterTdc: e.cam.exhaust_closes_atdc,
            intakeOpensBeforeTdc: e.cam.intake_opens_btdc,
            intakeClosesAfterBdc: e.cam.intake_closes_abdc,
            exhaustLift: e.cam.exhaust_lift ?? null,
          },
    rpm: e.rpm ?? null,
  };
}

function headOf({ name, frame, section }: PlacedHead, fit: BoltFit): Head {
  return {
    name,
    frame,
    bolts: section.bolts.map((b) => ({
      at: b.at,
      thread: b.thread,
      holeDiameter: b.hole_diameter ?? clearanceHole(b.thread, fit),
      threadDiameter: threadDiameter(b.thread),
      socketDiameter: b.socket ?? socketDiameter(b.thread),
    })),
    body: section.body === undefined ? null : bodyOf(section.body),
  };
}

/** The body with its lowest and highest corner put in order. */
export function bodyOf({ from, to, depth }: NonNullable<PlacedHead['section']['body']>): HeadBody {
  return {
    from: [Math.min(from[0], to[0]), Math.min(from[1], to[1])],
    to: [Math.max(from[0], to[0]), Math.max(from[1], to[1])],
    depth,
  };
}

function wantedLength(length: PlanFile['runners']['length']): Pick<RunnersPlan, 'length' | 'band' | 'tuned'> {
  if (length === 'tuned') return { length: Number.NaN, band: null, tuned: true };
  if (typeof length === 'number') return { length, band: null, tuned: false };
  return { length: (length.from + length.to) / 2, band: length, tuned: false };
}

function runnersOf(r: PlanFile['runners'], ports: readonly PlacedPort[]): RunnersPlan {
  return {
    ...wantedLength(r.length),
    tolerance: r.spread,
    clearance: r.clearance,
    given: r.routes.flatMap((route) => {
      const placed = ports.find((p) => p.port.cylinder === route.cylinder);
      if (placed === undefined) return [];
      return [{ cylinder: route.cylinder, inlet: route.inlet ?? null, ...routePolygon(route, placed.port) }];
    }),
    seed: r.seed,
    weights: r.weights,
    budget: r.budget,
  };
}

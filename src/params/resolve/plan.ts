import { clearanceHole, threadDiameter } from '../bolt-holes.js';
import { DEFAULTS } from '../defaults.js';
import type { Engine, FlangePlan, Head, HeadBody, KeepOut, Plan, RunnersPlan } from '../plan.js';
import type { PlanFile } from '../schema/plan-file.js';
import { collectorPlan, placedCollectors } from './collectors.js';
import { routePolygon } from './given-route.js';
import { type PlacedHead, placedHeads } from './heads.js';
import { type PlacedPort, placedPorts } from './ports.js';

/** The plan of a file that every rule has passed. */
export function planOf(file: PlanFile): Plan {
  const heads = placedHeads(file);
  const ports = placedPorts(heads);
  const collectors = placedCollectors(
    file,
    ports.map((p) => p.port.cylinder),
  );
  return {
    name: file.name,
    units: file.units,
    engine: engineOf(file.engine),
    heads: heads.map((h) => headOf(h, file.flange.bolt_fit)),
    ports: ports.map((p) => p.port).sort((a, b) => a.cylinder - b.cylinder),
    flange: flangeOf(file.flange),
    tube: {
      od: file.tube.od,
      wall: file.tube.wall,
      material: file.tube.material,
      bends: file.tube.bends.map((b) => ({ clr: b.clr, maxAngle: b.max_angle, leg: b.leg })),
      steps: [],
      minStraight: file.tube.min_straight,
      minStraightPort: file.tube.min_straight_port,
      minStraightInlet: file.tube.min_straight_inlet,
    },
    collectors: collectors.map((c) => collectorPlan(c, file.tube.wall)),
    runners: runnersOf(file.runners, ports),
    secondaries: null,
    keepOuts: file.keep_out.map((k) => keepOutOf(k, file.runners.clearance)),
    access: [],
    jig: {
      bed: file.jig.bed,
      fit: file.jig.fit,
      plate: file.jig.plate,
      keyLength: file.jig.key_length,
      strut: file.jig.strut,
    },
  };
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

function headOf({ name, frame, section }: PlacedHead, fit: FlangePlan['boltFit']): Head {
  return {
    name,
    frame,
    bolts: section.bolts.map((b) => ({
      at: b.at,
      thread: b.thread,
      holeDiameter: b.hole_diameter ?? clearanceHole(b.thread, fit),
      threadDiameter: threadDiameter(b.thread),
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

function flangeOf(f: PlanFile['flange']): FlangePlan {
  return {
    thickness: f.thickness,
    material: f.material,
    portEdge: f.port_edge ?? f.edge_width,
    boltEdge: f.bolt_edge ?? f.edge_width,
    web: f.web,
    fillet: f.fillet,
    enlarge: f.enlarge,
    boltFit: f.bolt_fit,
    kerf: f.kerf,
  };
}

function runnersOf(r: PlanFile['runners'], ports: readonly PlacedPort[]): RunnersPlan {
  return {
    length: r.length,
    band: null,
    tolerance: r.spread,
    clearance: r.clearance,
    given: r.routes.flatMap((route) => {
      const placed = ports.find((p) => p.port.cylinder === route.cylinder);
      if (placed === undefined) return [];
      return [{ cylinder: route.cylinder, inlet: route.inlet ?? null, ...routePolygon(route, placed.port) }];
    }),
    seed: r.seed,
    weights: DEFAULTS.runners.weights,
    budget: DEFAULTS.runners.budget,
  };
}

function keepOutOf(k: PlanFile['keep_out'][number], clearance: number): KeepOut {
  if (k.kind === 'cylinder') return { ...k, heat: false, clearance: k.clearance ?? clearance };
  return {
    ...k,
    heat: false,
    clearance: k.clearance ?? clearance,
    from: [Math.min(k.from[0], k.to[0]), Math.min(k.from[1], k.to[1]), Math.min(k.from[2], k.to[2])],
    to: [Math.max(k.from[0], k.to[0]), Math.max(k.from[1], k.to[1]), Math.max(k.from[2], k.to[2])],
  };
}

import { firstNormal } from '../../geometry/path/lra.js';
import { carryNormal, type Path, partOfPath, segmentLength } from '../../geometry/path/path.js';
import { spanAtRun } from '../../geometry/path/span-at-run.js';
import { LENGTH_TOLERANCE } from '../../geometry/tolerance.js';
import { dot, type Vec3 } from '../../geometry/vec3.js';
import type { Plan, StockBend } from '../../params/plan.js';
import type { RoutedPrimary, RoutedTube } from '../../routing/routed.js';
import { collectorFiles } from '../printed-part.js';
import { jointPlaces, type StraightRun, type TubeBend } from './joint-places.js';
import { letters } from './letters.js';

/** One piece of tube between two joints: what is cut in steel and printed as a dummy. */
export interface Piece {
  /**
   * '2C' is the third piece of cylinder 2, 'front-A' the first of the secondary from collector front. Never a text that a
   * spreadsheet takes for a date.
   */
  readonly name: string;
  /** The same, safe for files. */
  readonly file: string;
  /** The tube's id: cylinder number, or the collector a secondary comes from. */
  readonly tube: string;
  /** Null for a piece of a secondary. */
  readonly cylinder: number | null;
  /** From 1 where the tube starts. */
  readonly number: number;
  /** mm. */
  readonly od: number;
  /** Wall, mm. */
  readonly wall: number;
  /** Where it starts and ends along the tube, mm from the head face or from the outlet a secondary starts at. */
  readonly fromRun: number;
  /** Where it ends, running length, mm. */
  readonly toRun: number;
  /** World. */
  readonly path: Path;
  /** A bend may carry straight legs. */
  readonly kind: 'straight' | 'bend';
  /** Unit normals carried along the tube without twist: where the clocking mark stands at each end. */
  readonly startNormal: Vec3;
  /** The same at its end. */
  readonly endNormal: Vec3;
  /** True for the piece at the head or the feeding collector. */
  readonly first: boolean;
  /** True for the piece at the collector. */
  readonly last: boolean;
}

/** The cylinder a tube comes from; null for a secondary. */
export const cylinderOf = (tube: RoutedTube): number | null =>
  'cylinder' in tube ? (tube as RoutedPrimary).cylinder : null;

/**
 * How far along its path a tube starts, mm: a primary at the flange's outer face, where it is welded on; a secondary at the
 * outlet itself.
 */
export function tubeStart(plan: Plan, tube: RoutedTube): number {
  const cylinder = cylinderOf(tube);
  if (cylinder === null) return 0;
  const port = plan.ports.find((p) => p.cylinder === cylinder)!;
  return plan.flange.thickness / dot(port.frame.z, plan.heads[port.head]!.frame.z);
}

/**
 * The pieces of a tube in order from where it starts, as few as its bent stock allows. A joint stands where the tube grows; a
 * straight stays on the leg of a neighbouring bend of its own size, or is parted between both, where one piece of stock gives bend and
 * leg; any other straight is a piece of its own (`jointPlaces`).
 */
export function piecesOf(plan: Plan, tube: RoutedTube): readonly Piece[] {
  const { path } = tube;
  const cylinder = cylinderOf(tube);
  const start = tubeStart(plan, tube);
  const cuts = [start, ...jointRuns(plan, tube, start), tube.length];
  const first = firstNormal(tube.polygon.points);
  const [name, file] = namesOf(plan, tube);
  let normal = start > 0 ? carryNormal(partOfPath(path, 0, start), first) : first;
  return cuts.slice(1).map((toRun, i) => {
    const fromRun = cuts[i]!;
    const part = partOfPath(path, fromRun, toRun);
    const startNormal = normal;
    normal = carryNormal(part, normal);
    const { od, wall } = spanAtRun(tube.sections, (fromRun + toRun) / 2);
    return {
      name: name + letters(i),
      file: file + letters(i).toLowerCase(),
      tube: tube.id,
      cylinder,
      number: i + 1,
      od,
      wall,
      fromRun,
      toRun,
      path: part,
      kind: part.segments.some((s) => s.kind === 'bend') ? 'bend' : 'straight',
      startNormal,
      endNormal: normal,
      first: i === 0,
      last: i === cuts.length - 2,
    };
  });
}

/** What the names of a tube's pieces begin with, and the same safe for files. */
function namesOf(plan: Plan, tube: RoutedTube): [name: string, file: string] {
  if (cylinderOf(tube) !== null) return [tube.id, tube.id];
  const from = plan.collectors.findIndex((c) => c.name === tube.id);
  return [`${tube.id}-`, `${collectorFiles(plan.collectors)[from]!}-`];
}

/** Bent stock of every section of a tube. */
export function stockOf(plan: Plan, tube: RoutedTube): readonly (readonly StockBend[])[] {
  if (cylinderOf(tube) === null) return tube.sections.map(() => plan.secondaries?.bends ?? []);
  return tube.sections.map((_, k) => (k === 0 ? plan.tube.bends : (plan.tube.steps[k - 1]?.bends ?? [])));
}

/** Running lengths of the joints between the tube's two ends, mm. */
function jointRuns(plan: Plan, tube: RoutedTube, start: number): number[] {
  const stock = stockOf(plan, tube).map((bends) => withReserve(bends, plan.weld));
  const steps = tube.sections.slice(1).map((s) => s.from);
  const straights: StraightRun[] = [];
  const bends: TubeBend[] = [];
  let run = 0;
  for (const s of tube.path.segments) {
    const from = Math.max(run, start);
    const end = run + segmentLength(s);
    if (s.kind === 'straight') {
      const own = steps.filter((x) => x > from - LENGTH_TOLERANCE && x < end + LENGTH_TOLERANCE);
      straights.push({ from, to: Math.max(from, end), steps: own });
    } else {
      const section = spanAtRun(tube.sections, (run + end) / 2);
      bends.push({ clr: s.clr, angle: s.angle, stock: stock[tube.sections.indexOf(section)]! });
    }
    run = end;
  }
  const joints = jointPlaces(straights, bends);
  return joints.filter((x, i) => i === 0 || x - joints[i - 1]! > LENGTH_TOLERANCE);
}

/** Legs less what welds that draw together more than their gap may ask of them: such a piece is cut longer than its route. */
function withReserve(bends: readonly StockBend[], { gap, shrinkage }: Plan['weld']): readonly StockBend[] {
  const reserve = Math.max(0, shrinkage - gap);
  const less = (leg: number): number => Math.max(0, leg - reserve);
  return bends.map((b) => ({ ...b, leg: less(b.leg), shortLeg: less(b.shortLeg) }));
}

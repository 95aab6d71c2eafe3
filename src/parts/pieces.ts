import { firstNormal } from '../geometry/lra.js';
import { carryNormal, type Path, type PathSegment, partOfPath, segmentLength } from '../geometry/path.js';
import { LENGTH_TOLERANCE } from '../geometry/tolerance.js';
import { dot, type Vec3 } from '../geometry/vec3.js';
import type { Plan, StockBend } from '../params/plan.js';
import type { RoutedPrimary } from '../routing/routed.js';

/** One piece of tube between two joints: what is cut in steel and printed as a dummy. */
export interface Piece {
  /** Cylinder and letter: '2C' is the third piece of cylinder 2. Never a text that a spreadsheet takes for a date. */
  readonly name: string;
  readonly cylinder: number;
  /** From 1 at the head. */
  readonly number: number;
  /** Where it starts and ends along the primary, mm from the head face. */
  readonly fromRun: number;
  readonly toRun: number;
  /** World. */
  readonly path: Path;
  /** A bend may carry straight legs. */
  readonly kind: 'straight' | 'bend';
  /** Unit normals carried along the primary without twist: where the clocking mark stands at each end. */
  readonly startNormal: Vec3;
  readonly endNormal: Vec3;
  readonly first: boolean;
  readonly last: boolean;
}

/** How far along the port's axis the tube starts: the flange's outer face, where the tube is welded on. mm. */
export function tubeStart(plan: Plan, primary: RoutedPrimary): number {
  const port = plan.ports.find((p) => p.cylinder === primary.cylinder)!;
  return plan.flange.thickness / dot(port.frame.z, plan.heads[port.head]!.frame.z);
}

/**
 * The pieces of a primary in order from the head. A joint stands where a bend ends; a straight that fits the leg of a
 * neighbouring bend stays on it, so that bend and straight are cut from one piece of stock; any other straight is a piece of its own.
 */
export function piecesOf(plan: Plan, primary: RoutedPrimary): readonly Piece[] {
  const { path } = primary;
  const start = tubeStart(plan, primary);
  const cuts = [start, ...jointRuns(path, start, plan.tube.bends), primary.length];
  let normal = carryNormal(partOfPath(path, 0, start), firstNormal(primary.polygon.points));
  return cuts.slice(1).map((toRun, i) => {
    const fromRun = cuts[i]!;
    const part = partOfPath(path, fromRun, toRun);
    const startNormal = normal;
    normal = carryNormal(part, normal);
    return {
      name: `${primary.cylinder}${letters(i)}`,
      cylinder: primary.cylinder,
      number: i + 1,
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

/** A, B, ... Z, AA, AB, ... */
function letters(i: number): string {
  const last = String.fromCharCode(65 + (i % 26));
  return i < 26 ? last : letters(Math.floor(i / 26) - 1) + last;
}

/** Running lengths of the joints between the tube's two ends, mm. */
function jointRuns(path: Path, start: number, stock: readonly StockBend[]): number[] {
  const joints: number[] = [];
  let run = 0;
  path.segments.forEach((s, i) => {
    const end = run + segmentLength(s);
    if (s.kind === 'straight') {
      const before = path.segments[i - 1];
      const after = path.segments[i + 1];
      joints.push(...jointsOnStraight(Math.max(run, start), end, legOf(before, stock), legOf(after, stock)));
    }
    run = end;
  });
  return joints;
}

/** Leg of straight a bend brings with it, mm; null where no bend is. */
function legOf(s: PathSegment | undefined, stock: readonly StockBend[]): number | null {
  if (s?.kind !== 'bend') return null;
  return Math.max(0, ...stock.filter((b) => Math.abs(b.clr - s.clr) < 1e-6).map((b) => b.leg));
}

function jointsOnStraight(from: number, to: number, legBefore: number | null, legAfter: number | null): number[] {
  const straight = to - from;
  if (legBefore === null) return legAfter === null || straight <= legAfter + LENGTH_TOLERANCE ? [] : [to];
  if (legAfter === null) return straight <= legBefore + LENGTH_TOLERANCE ? [] : [from];
  if (straight <= legBefore + LENGTH_TOLERANCE) return [to];
  if (straight <= legBefore + legAfter + LENGTH_TOLERANCE) return [from + legBefore];
  return [from, to];
}

import { type Obstacle, obstacleDistance } from '../geometry/obstacle.js';
import { headingAt, type Path, partOfPath, pathLength } from '../geometry/path.js';
import { type Approach, obstacleApproach, pathApproach } from '../geometry/path-gap.js';
import type { Vec3 } from '../geometry/vec3.js';
import type { KeptOut, RouteProblem } from './problem.js';

/** A primary's exact path with what gaps depend on. */
export interface Measured {
  readonly cylinder: number;
  readonly collector: number;
  readonly path: Path;
}

/** A true least gap between skins, mm, to within `DISTANCE_ERROR`. */
export interface Gap {
  readonly kind: 'primaries' | 'run-in' | 'kept-out' | 'self';
  /** The cylinders it concerns: two, or one. */
  readonly cylinders: readonly number[];
  /** The other thing, where it is not a primary. */
  readonly other: string | null;
  readonly value: number;
  readonly limit: number;
  /** Where on the first primary's centreline, and how far along it, mm. */
  readonly at: Vec3;
  readonly run: number;
}

/** Every least gap of a set of primaries: between each two, to everything kept out, and of each to itself. */
export function gapsOf(problem: RouteProblem, primaries: readonly Measured[]): readonly Gap[] {
  const pairs = primaries.flatMap((a, i) => primaries.slice(i + 1).flatMap((b) => pairGaps(problem, a, b)));
  const single = primaries.flatMap((p) => [
    ...problem.keptOut.flatMap((k) => keptOutGaps(problem, p, k)),
    ...selfGaps(problem, p),
  ]);
  return [...pairs, ...single];
}

function pairGaps(problem: RouteProblem, a: Measured, b: Measured): Gap[] {
  const shared = a.collector === b.collector ? problem.collectors[a.collector]! : null;
  const runIn = shared?.runIn ?? 0;
  const endA = pathLength(a.path);
  const endB = pathLength(b.path);
  const gap = (kind: Gap['kind'], found: Approach, from: number, limit: number): Gap => ({
    kind,
    cylinders: [a.cylinder, b.cylinder],
    other: null,
    value: found.distance - 2 * problem.radius,
    limit,
    at: headingAt(a.path, from + found.run).point,
    run: from + found.run,
  });
  if (runIn <= 0) return [gap('primaries', pathApproach(a.path, b.path), 0, problem.clearance)];
  const mainA = partOfPath(a.path, 0, endA - runIn);
  const mainB = partOfPath(b.path, 0, endB - runIn);
  const lastA = partOfPath(a.path, endA - runIn, endA);
  const lastB = partOfPath(b.path, endB - runIn, endB);
  const main = gap('primaries', pathApproach(mainA, b.path), 0, problem.clearance);
  const rest = gap('primaries', pathApproach(lastA, mainB), endA - runIn, problem.clearance);
  return [
    rest.value < main.value ? rest : main,
    gap('run-in', pathApproach(lastA, lastB), endA - runIn, shared!.runInGap),
  ];
}

/**
 * The gap to kept-out space. A tube that starts or ends there first moves away from it; from where it stops doing so it is
 * measured. None when it never comes nearer again.
 */
function keptOutGaps(problem: RouteProblem, p: Measured, k: KeptOut): Gap[] {
  const length = pathLength(p.path);
  const need = problem.radius + k.limit;
  const start = k.startsOn.includes(p.cylinder) ? leaving(p.path, k.obstacle, 1) : null;
  const end = k.endsOn.includes(p.cylinder) ? leaving(p.path, k.obstacle, -1) : null;
  const gap = (distance: number, run: number): Gap => ({
    kind: 'kept-out',
    cylinders: [p.cylinder],
    other: k.name,
    limit: k.limit,
    value: distance - problem.radius,
    at: headingAt(p.path, run).point,
    run,
  });
  if (start && start.distance < need) return [gap(start.distance, start.run)];
  if (end && end.distance < need) return [gap(end.distance, length - end.run)];
  const from = start?.run ?? 0;
  const to = length - (end?.run ?? 0);
  if (to - from < 1e-6) return [];
  const found = obstacleApproach(partOfPath(p.path, from, to), k.obstacle);
  return [gap(found.distance, from + found.run)];
}

/** Step, mm, in which a tube is followed as it leaves what it stands on. */
const LEAVING_STEP = 0.5;

/** How far, mm, from one end a path goes on moving away from what that end stands on, and its distance there. */
function leaving(path: Path, obstacle: Obstacle, sense: 1 | -1): { readonly run: number; readonly distance: number } {
  const length = pathLength(path);
  const distanceAt = (run: number): number =>
    obstacleDistance(obstacle, headingAt(path, sense > 0 ? run : length - run).point);
  let run = 0;
  let here = distanceAt(0);
  while (run < length) {
    const next = Math.min(run + LEAVING_STEP, length);
    const there = distanceAt(next);
    if (there < here - 1e-9) break;
    run = next;
    here = there;
  }
  return { run, distance: here };
}

function selfGaps(problem: RouteProblem, p: Measured): Gap[] {
  const found = pathApproach(p.path, p.path, undefined, problem.selfSeparation);
  if (!Number.isFinite(found.distance)) return [];
  return [
    {
      kind: 'self',
      cylinders: [p.cylinder],
      other: null,
      value: found.distance - 2 * problem.radius,
      limit: problem.selfGap,
      at: headingAt(p.path, found.run).point,
      run: found.run,
    },
  ];
}

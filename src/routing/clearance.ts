import { headingAt, type Path, partOfPath, pathLength } from '../geometry/path/path.js';
import type { Obstacle } from '../geometry/space/obstacle.js';
import { obstacleDistance } from '../geometry/space/obstacle.js';
import { skinGap, skinGapTo, type TubeRun } from '../geometry/space/skin-gap.js';
import type { Vec3 } from '../geometry/vec3.js';
import { gapLimit } from './limits.js';
import { tubesInWords } from './place-words.js';
import { type KeptOut, type RouteProblem, type Runner, SELF_SEPARATION } from './problem.js';
import type { RoutedTube } from './routed.js';

/** What gaps depend on of a routed tube. */
export type Measured = Pick<RoutedTube, 'id' | 'path' | 'sections'>;

/** A true least gap between skins, mm, to within `DISTANCE_ERROR`. */
export interface Gap {
  /** Between tubes: in the open, in their approach to a common collector, or in the run-in just before its inlets. */
  readonly kind: 'tubes' | 'approach' | 'run-in' | 'kept-out' | 'self';
  /** The tubes it concerns, by id: two, or one. */
  readonly tubes: readonly string[];
  /** 'cylinders 1 and 2', 'cylinder 3 and head', 'cylinder 4, two passes of the same tube'. */
  readonly place: string;
  /** What was found, mm. */
  readonly value: number;
  /** What is allowed, mm. */
  readonly limit: number;
  /** Where on the first tube's centreline, and how far along it, mm. */
  readonly at: Vec3;
  /** How far along the first tube, mm. */
  readonly run: number;
  /** How far along the second tube, or along the other pass of the same one, mm; null for kept-out space. */
  readonly otherRun: number | null;
}

interface Tube extends TubeRun {
  readonly runner: Runner;
  readonly length: number;
}

/** Every least gap of a set of tubes: between each two, to everything kept out, and of each to itself. */
export function gapsOf(problem: RouteProblem, measured: readonly Measured[]): readonly Gap[] {
  const tubes = measured.map(
    (m): Tube => ({
      runner: problem.runners.find((r) => r.id === m.id)!,
      path: m.path,
      length: pathLength(m.path),
      steps: m.sections.map((s) => ({ from: s.from, radius: s.od / 2 })),
    }),
  );
  const pairs = tubes.flatMap((a, i) => tubes.slice(i + 1).flatMap((b) => pairGaps(problem, a, b)));
  const single = tubes.flatMap((t) => [...problem.keptOut.flatMap((k) => keptOutGaps(t, k)), ...selfGaps(problem, t)]);
  return [...pairs, ...single];
}

/** A part of a tube with its steps counted from the part's start. */
function partOf(tube: Tube, from: number, to: number): TubeRun {
  const steps = tube.steps.map((s) => ({ from: Math.max(0, s.from - from), radius: s.radius }));
  const first = steps.filter((s) => s.from === 0).length - 1;
  return { path: partOfPath(tube.path, from, to), steps: steps.slice(Math.max(0, first)) };
}

/** The least gaps of two tubes: in the open and, where they share a collector, in the approach and in the run-in. */
function pairGaps(problem: RouteProblem, a: Tube, b: Tube): Gap[] {
  const limit = gapLimit(problem, a.runner, b.runner);
  const words = tubesInWords([a.runner.name, b.runner.name]);
  const gap = (kind: Gap['kind'], place: string, found: Found, least: number): Gap => ({
    kind,
    tubes: [a.runner.id, b.runner.id],
    place,
    value: found.gap,
    limit: least,
    at: headingAt(a.path, found.run).point,
    run: found.run,
    otherRun: found.otherRun,
  });
  if (a.runner.collector !== b.runner.collector) return [gap('tubes', words, skinGap(a, b), limit)];
  const { runIn, runInGap, approach } = problem.collectors[a.runner.collector]!;
  const upTo = (t: Tube, back: number): Zone => [0, t.length - back];
  const within = (t: Tube, from: number, to: number): Zone => [t.length - from, t.length - to];
  const open = nearest([
    zoneGap(a, upTo(a, approach), b, [0, b.length]),
    zoneGap(a, within(a, approach, 0), b, upTo(b, approach)),
  ]);
  const drawing = nearest([
    zoneGap(a, within(a, approach, runIn), b, within(b, approach, 0)),
    zoneGap(a, within(a, runIn, 0), b, within(b, approach, runIn)),
  ]);
  const last = zoneGap(a, within(a, runIn, 0), b, within(b, runIn, 0));
  return [
    ...(open ? [gap('tubes', words, open, limit)] : []),
    ...(drawing ? [gap('approach', `${words}, drawing together`, drawing, limit)] : []),
    ...(last ? [gap('run-in', `${words}, just before the inlets`, last, Math.min(runInGap, limit))] : []),
  ];
}

type Zone = readonly [from: number, to: number];

interface Found {
  readonly gap: number;
  /** Along the whole first tube and along the whole second. */
  readonly run: number;
  readonly otherRun: number;
}

const nearest = (found: readonly (Found | null)[]): Found | null =>
  found.reduce((best, f) => (f && (!best || f.gap < best.gap) ? f : best), null);

/** Least gap between parts of two tubes; null when either part is empty. */
function zoneGap(a: Tube, [a0, a1]: Zone, b: Tube, [b0, b1]: Zone): Found | null {
  if (a1 - a0 < 1e-6 || b1 - b0 < 1e-6) return null;
  const found = skinGap(partOf(a, a0, a1), partOf(b, b0, b1));
  return { gap: found.gap, run: a0 + found.run, otherRun: b0 + found.otherRun };
}

/**
 * The gap to kept-out space. A tube that starts or ends there first moves away from it; from where it stops doing so it is
 * measured. None when it never comes nearer again.
 */
function keptOutGaps(tube: Tube, k: KeptOut): Gap[] {
  const { path, length, runner } = tube;
  const first = tube.steps[0]!.radius;
  const last = tube.steps[tube.steps.length - 1]!.radius;
  const start = k.startsOn.includes(runner.id) ? leaving(path, k.obstacle, 1) : null;
  const end = k.endsOn.includes(runner.id) ? leaving(path, k.obstacle, -1) : null;
  const gap = (value: number, run: number): Gap => ({
    kind: 'kept-out',
    tubes: [runner.id],
    place: `${runner.name} and ${k.name}`,
    limit: k.limit,
    value,
    at: headingAt(path, run).point,
    run,
    otherRun: null,
  });
  if (start && start.distance - first < k.limit) return [gap(start.distance - first, start.run)];
  if (end && end.distance - last < k.limit) return [gap(end.distance - last, length - end.run)];
  const from = start?.run ?? 0;
  const to = length - (end?.run ?? 0);
  if (to - from < 1e-6) return [];
  const found = skinGapTo(partOf(tube, from, to), k.obstacle);
  return [gap(found.gap, from + found.run)];
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

function selfGaps(problem: RouteProblem, tube: Tube): Gap[] {
  const widest = Math.max(...tube.steps.map((s) => s.radius));
  const found = skinGap(tube, tube, undefined, SELF_SEPARATION * 2 * widest);
  if (!Number.isFinite(found.gap)) return [];
  return [
    {
      kind: 'self',
      tubes: [tube.runner.id],
      place: `${tube.runner.name}, two passes of the same tube`,
      value: found.gap,
      limit: problem.selfGap,
      at: headingAt(tube.path, found.run).point,
      run: found.run,
      otherRun: found.otherRun,
    },
  ];
}

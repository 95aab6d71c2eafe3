import { type Frame, frameFrom, pointFrom, WORLD } from '../../../geometry/frame.js';
import { partOfPath, pathLength } from '../../../geometry/path/path.js';
import { pathInto } from '../../../geometry/path/placed.js';
import type { BenchPlan, Plan } from '../../../params/plan.js';
import type { RoutedPrimary, RoutedSecondary, RoutedTube } from '../../../routing/routed.js';
import type { SolidPart } from '../../part.js';
import { cylinderOf, type Piece, piecesOf } from '../../tube/pieces.js';
import { flangeFace } from '../tube-jigs.js';
import { basePlates } from './base-plate.js';
import { benchPose } from './bench-pose.js';
import { clockingRings } from './clocking-ring.js';
import { saddle } from './saddle.js';
import { liftOf, saddlePlaces } from './saddle-place.js';
import type { LyingTube, SaddlePlace } from './saddle-post.js';
import { scribingSleeves } from './scribing-sleeve.js';

/** What is printed for the bench, and remarks: 'piece 2C: too short for a saddle'. */
export interface BenchJigs {
  readonly parts: readonly SolidPart[];
  readonly notes: readonly string[];
}

/** What the jigs of the bench are made for. */
export interface OnBench {
  readonly plan: Plan;
  readonly bench: BenchPlan;
  readonly tubes: readonly RoutedTube[];
}

/** Every jig of the bench; one that the plan does not want makes nothing. A new jig is one file and one row here. */
const JIGS: readonly ((on: OnBench) => BenchJigs)[] = [saddleSet, sleeveSet, ringSet];

/** The jigs for tacking on the bench; nothing where the plan asks for none. */
export function benchJigs(
  plan: Plan,
  primaries: readonly RoutedPrimary[],
  secondaries: readonly RoutedSecondary[],
): BenchJigs {
  const { bench } = plan.jig;
  if (bench === null) return NONE;
  const tubes: readonly RoutedTube[] = [...primaries, ...secondaries];
  return together(JIGS.map((jigs) => jigs({ plan, bench, tubes })));
}

const NONE: BenchJigs = { parts: [], notes: [] };

const together = (made: readonly BenchJigs[]): BenchJigs => ({
  parts: made.flatMap((m) => m.parts),
  notes: made.flatMap((m) => m.notes),
});

/** What the files of a tube's bench jigs are named by: '2', or 'front' for the secondary from collector front. */
const tubeFile = (pieces: readonly Piece[]): string => pieces[0]!.file.replace(/-?a$/, '');

function sleeveSet({ plan, bench, tubes }: OnBench): BenchJigs {
  if (!bench.sleeves) return NONE;
  const pieces = tubes.flatMap((tube) =>
    piecesOf(plan, tube).map((piece) => ({ piece, face: piece.first ? flangeFace(plan, cylinderOf(tube)) : null })),
  );
  return scribingSleeves(pieces, plan.jig);
}

function ringSet({ plan, bench, tubes }: OnBench): BenchJigs {
  if (!bench.clockingRings) return NONE;
  return together(tubes.map((t) => clockingRings(plan, t, tubeFile(piecesOf(plan, t)), bench)));
}

/** A tube over the base plate with its saddles: frame of the plate's top in the world, holes numbered from A1. */
export interface TubeOnBench {
  readonly file: string;
  readonly at: Frame;
  readonly lying: LyingTube;
  readonly places: readonly SaddlePlace[];
  readonly notes: readonly string[];
}

/** How one tube lies over the base plate and what carries it. */
export function tubeOnBench(plan: Plan, tube: RoutedTube, bench: BenchPlan): TubeOnBench {
  const pieces = piecesOf(plan, tube);
  const start = pieces[0]!.fromRun;
  const path = partOfPath(tube.path, start, tube.length);
  const lyingPieces = pieces.map((p) => ({
    name: p.name,
    radius: p.od / 2,
    from: p.fromRun - start,
    to: p.toRun - start,
    jointBefore: !p.first,
    jointAfter: !p.last,
  }));
  const radiusAt = (run: number): number => (lyingPieces.find((p) => run <= p.to) ?? lyingPieces.at(-1)!).radius;
  const pose = benchPose(path, radiusAt, liftOf(bench));
  const first: LyingTube = { path: pathInto(pose, path), pieces: lyingPieces };
  const found = saddlePlaces(first, bench, plan.jig.fit);
  // the plate begins at the first hole that is used
  const used = found.places.flatMap((p) => p.holes);
  const [column, row] = [0, 1].map((k) => (used.length === 0 ? 0 : Math.min(...used.map((h) => h[k]!))));
  const shift: Frame = { ...WORLD, origin: [column! * bench.base.pitch, row! * bench.base.pitch, 0] };
  const at: Frame = { ...frameFrom(pose, shift), origin: pointFrom(pose, shift.origin) };
  return {
    file: tubeFile(pieces),
    at,
    lying: { ...first, path: pathInto(shift, first.path) },
    places: found.places.map((p) => moved(p, [column!, row!], bench.base.pitch)),
    notes: found.notes,
  };
}

function moved(p: SaddlePlace, [column, row]: readonly [number, number], pitch: number): SaddlePlace {
  const [dx, dy] = [column * pitch, row * pitch];
  const [front, back] = p.holes;
  return {
    ...p,
    point: [p.point[0] - dx, p.point[1] - dy, p.point[2]],
    holes: [
      [front[0] - column, front[1] - row],
      [back[0] - column, back[1] - row],
    ],
    foot: p.foot.map(([x, y]) => [x - dx, y - dy]),
  };
}

/** Saddles of every tube and one base plate for all, as large as the largest asks for: the tubes are tacked one after the other. */
function saddleSet({ plan, bench, tubes }: OnBench): BenchJigs {
  if (!bench.saddles) return NONE;
  const set = tubes.map((t) => tubeOnBench(plan, t, bench));
  const saddles = set.flatMap(({ file, at, lying, places }) =>
    places.map((p, i) => saddle(p, lying.path, { file, number: i + 1, at }, bench, plan.jig)),
  );
  const holes = set.flatMap((t) => t.places.flatMap((p) => p.holes));
  if (holes.length === 0) return { parts: [], notes: set.flatMap((t) => t.notes) };
  const [columns, rows] = [0, 1].map((k) => 1 + Math.max(...holes.map((h) => h[k]!)));
  // the plates are shown under the longest tube
  const longest = set.reduce((a, b) => (pathLength(b.lying.path) > pathLength(a.lying.path) ? b : a));
  const plates = basePlates(columns!, rows!, longest.at, bench, plan.jig);
  const tall = saddles.filter((s) => s.tooBig !== null);
  return {
    parts: [...plates, ...saddles],
    notes: [
      ...set.flatMap((t) => t.notes),
      ...tall.map(
        (s) =>
          `saddle ${s.name}: it does not fit the printer; make its post of wood to the same height, or print it where the bed is larger`,
      ),
    ],
  };
}

import { directionFrom, frameFrom, pointFrom } from '../../geometry/frame.js';
import { headingIn, type Path, partOfPath, segmentLength } from '../../geometry/path/path.js';
import { LENGTH_TOLERANCE } from '../../geometry/tolerance.js';
import { along, cross, dot, length, lerp, type Vec3 } from '../../geometry/vec3.js';
import type { CollectorPlan } from '../../params/plan.js';
import type { CollectorGeometry } from '../../parts/collector/merge-geometry.js';
import type { RoutedTube } from '../../routing/routed.js';
import type { View } from './view.js';

/** A short run of tube as a picture shows it: drawn at once, so that no seams show within it. */
export interface Stroke {
  readonly points: readonly Vec3[];
  /** Diameter, mm. */
  readonly width: number;
  readonly colour: string;
  /** True where the pipe ends with this run: its edge is drawn across. */
  readonly endsHere?: boolean;
}

/** Most tube, mm, in one stroke: short enough that a nearer tube covers a farther one where they cross. */
const RUN = 50;

/** Distance, mm, between points of a bend: short enough that its edge looks round. */
const STEP = 3;

/** A tube as strokes, each as wide as the tube is there. */
export function tubeStrokes({ path, length: whole, sections }: RoutedTube, colour: string): Stroke[] {
  return sections.flatMap((s, i) => {
    const to = sections[i + 1]?.from ?? whole;
    return to - s.from > LENGTH_TOLERANCE ? pathStrokes(partOfPath(path, s.from, to), s.od, colour) : [];
  });
}

/** A path as strokes. */
function pathStrokes(path: Path, width: number, colour: string): Stroke[] {
  return path.segments.flatMap((s) => {
    const l = segmentLength(s);
    const runs = Math.max(1, Math.ceil(l / RUN));
    const steps = s.kind === 'bend' ? Math.max(1, Math.ceil(l / runs / STEP)) : 1;
    return Array.from({ length: runs }, (_, i) => ({
      points: Array.from({ length: steps + 1 }, (_, j) => headingIn(s, (l * (i + j / steps)) / runs).point),
      width,
      colour,
    }));
  });
}

/** A collector as strokes: its inlet tubes, its cone as wide as it looks in the view, and its tail. */
export function collectorStrokes(plan: CollectorPlan, g: CollectorGeometry, view: View, colour: string): Stroke[] {
  const axis = (z: number): Vec3 => pointFrom(plan.frame, [0, 0, z]);
  const tubes = g.cuts.flatMap(({ frame }) => {
    const inlet = frameFrom(plan.frame, frame);
    const end = along(inlet.origin, inlet.z, g.mergeLength / Math.cos(g.mergeHalfAngle));
    return pieces(inlet.origin, end, 3, () => 2 * g.outside, colour);
  });
  const wide = 2 * (g.mergeRadius * spreadAcross(plan, g, view) + g.outside);
  const narrow = 2 * g.coneEnd.outside;
  const coneEnd = g.coneEnd.z;
  const outlet = 2 * g.outletOutside;
  return [
    ...tubes,
    ...pieces(axis(g.mergeLength), axis(coneEnd), 16, (t) => wide + (narrow - wide) * t, colour),
    ...throatStrokes(g, axis, colour),
    ...ended(pieces(axis(g.totalLength - g.tail), axis(g.totalLength), 1, () => outlet, colour)),
    ...branchStrokes(plan, g, colour),
  ];
}

/** Throat and diffuser of a venturi. */
function throatStrokes(
  { throat, outletOutside }: CollectorGeometry,
  axis: (z: number) => Vec3,
  colour: string,
): Stroke[] {
  if (throat === null) return [];
  const [narrow, wide] = [2 * throat.outside, 2 * outletOutside];
  return [
    ...pieces(axis(throat.from), axis(throat.to), 1, () => narrow, colour),
    ...pieces(axis(throat.to), axis(throat.diffuserEnd), 16, (t) => narrow + (wide - narrow) * t, colour),
  ];
}

function branchStrokes({ frame }: CollectorPlan, { branch }: CollectorGeometry, colour: string): Stroke[] {
  if (branch === null) return [];
  const [from, to] = [branch.frame.origin, branch.end.origin].map((p) => pointFrom(frame, p)) as [Vec3, Vec3];
  return ended(pieces(from, to, 3, () => branch.od, colour));
}

/** How far the inlets stand apart across the view, as a share of their distance from the collector's axis. */
function spreadAcross({ frame }: CollectorPlan, { cuts }: CollectorGeometry, view: View): number {
  const across = cross(view.towards, frame.z);
  const l = length(across);
  if (l < 1e-6) return 1;
  const outwards = cuts.map((c) => directionFrom(frame, [c.frame.origin[0], c.frame.origin[1], 0]));
  const reach = outwards.map((o) => Math.abs(dot(o, across)) / l);
  return Math.max(...reach) / Math.max(...outwards.map(length), 1e-9);
}

/** The same with the last run as the pipe's end. */
const ended = (strokes: readonly Stroke[]): Stroke[] =>
  strokes.map((s, i) => (i === strokes.length - 1 ? { ...s, endsHere: true } : s));

function pieces(from: Vec3, to: Vec3, steps: number, width: (t: number) => number, colour: string): Stroke[] {
  const n = steps;
  return Array.from({ length: n }, (_, i) => ({
    points: [lerp(from, to, i / n), lerp(from, to, (i + 1) / n)],
    width: width((i + 0.5) / n),
    colour,
  }));
}

import { type Path, type PathSegment, pointIn, segmentLength } from '../path/path.js';
import { LENGTH_TOLERANCE } from '../tolerance.js';
import { along, lerp, sub, type Vec3 } from '../vec3.js';

/** A round tube along a centreline, whose radius changes in steps. */
export interface TubeRun {
  readonly path: Path;
  /** Outside radius, mm, from a running length on, mm, in order; the first from 0. */
  readonly steps: readonly { readonly from: number; readonly radius: number }[];
}

/** A stretch of one segment of a tube, of one radius, with the chord that stands for it. */
export interface Stretch {
  readonly segment: PathSegment;
  /** Running length of the path at the segment's start, mm. */
  readonly base: number;
  /** Stretch within the segment, mm. */
  readonly from: number;
  readonly to: number;
  readonly radius: number;
  /** Ends of the chord: of an arc moved out by half the sagitta, so that it strays both ways alike. */
  readonly p: Vec3;
  readonly q: Vec3;
  /** How far the true curve strays from the chord, mm: half the sagitta of an arc. */
  readonly stray: number;
}

function stretch(segment: PathSegment, base: number, from: number, to: number, radius: number): Stretch {
  const p = pointIn(segment, from);
  const q = pointIn(segment, to);
  if (segment.kind === 'straight') return { segment, base, from, to, radius, p, q, stray: 0 };
  const out = sub(pointIn(segment, (from + to) / 2), lerp(p, q, 0.5));
  const stray = (segment.clr * (1 - Math.cos((to - from) / segment.clr / 2))) / 2;
  return { segment, base, from, to, radius, p: along(p, out, 0.5), q: along(q, out, 0.5), stray };
}

/** The stretches of a tube: each segment by itself, cut where the radius changes. */
export function stretchesOf({ path, steps }: TubeRun): Stretch[] {
  const all: Stretch[] = [];
  let base = 0;
  for (const segment of path.segments) {
    const length = segmentLength(segment);
    for (const [i, step] of steps.entries()) {
      const from = i === 0 ? 0 : Math.max(0, step.from - base);
      const to = Math.min(length, (steps[i + 1]?.from ?? Number.POSITIVE_INFINITY) - base);
      if (to - from > LENGTH_TOLERANCE) all.push(stretch(segment, base, from, to, step.radius));
    }
    base += length;
  }
  return all;
}

export function halvesOf(s: Stretch): [Stretch, Stretch] {
  const middle = (s.from + s.to) / 2;
  return [stretch(s.segment, s.base, s.from, middle, s.radius), stretch(s.segment, s.base, middle, s.to, s.radius)];
}

/** Run within the segment, mm, at a part of the stretch, 0 to 1. */
export const runAt = (s: Stretch, part: number): number => s.from + (s.to - s.from) * part;

/** Run within the segment, mm, of the place of the stretch nearest to a point. */
export function runNearest({ segment, from, to }: Pick<Stretch, 'segment' | 'from' | 'to'>, p: Vec3): number {
  const rx = p[0] - segment.from[0];
  const ry = p[1] - segment.from[1];
  const rz = p[2] - segment.from[2];
  const [ux, uy, uz] = segment.direction;
  const ahead = rx * ux + ry * uy + rz * uz;
  if (segment.kind === 'straight') return Math.min(to, Math.max(from, ahead));
  const { centre, clr } = segment;
  const outward =
    clr +
    (rx * (segment.from[0] - centre[0]) + ry * (segment.from[1] - centre[1]) + rz * (segment.from[2] - centre[2])) /
      clr;
  const middle = (from + to) / 2 / clr;
  // measured from the middle of the stretch, so that a place beyond an end is nearest to that end
  const angle = Math.atan2(ahead, outward) - middle;
  const turn = angle - 2 * Math.PI * Math.round(angle / (2 * Math.PI));
  return Math.min(to, Math.max(from, (middle + turn) * clr));
}

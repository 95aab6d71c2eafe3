import type { SceneTube } from '../../export/book/scene-data.js';
import { type Path, segmentLength } from '../../geometry/path/path.js';
import { spanAtRun } from '../../geometry/path/span-at-run.js';
import type { Vec3 } from '../../geometry/vec3.js';
import { pathOf, stationAt } from './tube-path.js';

/** What a place along a tube is like; mm, mm2, rad. */
export interface TubePlace {
  /** From the start of the tube. */
  readonly run: number;
  readonly point: Vec3;
  readonly direction: Vec3;
  readonly outerRadius: number;
  readonly innerRadius: number;
  /** Of the bore: pi r2. */
  readonly area: number;
  /** Centreline radius and angle of the bend the place lies in; null on a straight. */
  readonly bend: { readonly clr: number; readonly angle: number } | null;
  /** Name of the piece; null before the first, in the flange. */
  readonly piece: string | null;
}

/** The place at a running length of a tube; a length beyond its ends counts as the end. */
export function placeAlong(tube: SceneTube, run: number, path: Path = pathOf(tube)): TubePlace {
  const at = Math.min(tube.length, Math.max(0, run));
  const { point, direction } = stationAt(path, at);
  const { od, wall } = sectionAt(tube, at);
  const innerRadius = od / 2 - wall;
  return {
    run: at,
    point,
    direction,
    outerRadius: od / 2,
    innerRadius,
    area: Math.PI * innerRadius ** 2,
    bend: bendAt(path, at),
    piece: tube.pieces.find((p) => at >= p.from && at <= p.to)?.name ?? null,
  };
}

/** The section at a running length: where two meet, the one that begins. */
export function sectionAt({ sections }: Pick<SceneTube, 'sections'>, run: number): SceneTube['sections'][number] {
  return spanAtRun(sections, run);
}

function bendAt(path: Path, run: number): TubePlace['bend'] {
  let left = run;
  for (const s of path.segments) {
    const length = segmentLength(s);
    if (left <= length) return s.kind === 'bend' ? { clr: s.clr, angle: s.angle } : null;
    left -= length;
  }
  return null;
}

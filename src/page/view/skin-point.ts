import type { SceneTube } from '../../export/book/scene-data.js';
import { type Path, segmentLength } from '../../geometry/path/path.js';
import { runNearest } from '../../geometry/space/tube-stretch.js';
import { along, distance, dot, length, scale, sub, type Vec3 } from '../../geometry/vec3.js';
import { pathOf, stationAt } from './tube-path.js';
import { sectionAt } from './tube-place.js';

/** Running length of the place of a centreline nearest to a point, mm. */
export function nearestRun(path: Path, p: Vec3): number {
  let best = { run: 0, away: Number.POSITIVE_INFINITY };
  let base = 0;
  for (const s of path.segments) {
    const to = segmentLength(s);
    const into = runNearest({ segment: s, from: 0, to }, p);
    const away = distance(stationAt({ segments: [s] }, into).point, p);
    if (away < best.away) best = { run: base + into, away };
    base += to;
  }
  return best.run;
}

/**
 * The point of a tube's true skin, outside or bore, that a point picked on its facets stands for; a point on the flat face of an end or of
 * a step stays as it is.
 */
export function onTrueSkin(tube: SceneTube, picked: Vec3, slack: number, path: Path = pathOf(tube)): Vec3 {
  const run = nearestRun(path, picked);
  const { point, direction } = stationAt(path, run);
  const away = sub(picked, point);
  const out = along(away, direction, -dot(away, direction));
  const from = length(out);
  const { od, wall } = sectionAt(tube, run);
  const radius = [od / 2, od / 2 - wall].find((r) => Math.abs(r - from) <= slack);
  return radius === undefined || from === 0 ? picked : along(point, scale(out, 1 / from), radius);
}

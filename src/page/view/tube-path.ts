import type { SceneTube } from '../../export/book/scene-data.js';
import { headingIn, type Path, type PathSegment, segmentLength } from '../../geometry/path/path.js';
import { distance, perpendicularTo, rotateAbout, sub, unit, type Vec3 } from '../../geometry/vec3.js';

/** The exact centreline of a tube of a scene. A straight without length keeps the direction of what it follows. */
export function pathOf({ segments }: Pick<SceneTube, 'segments'>): Path {
  const path: PathSegment[] = [];
  for (const [i, s] of segments.entries()) {
    if (s.kind === 'bend') {
      const { from, along: direction, centre, axis: normal, clr, angle } = s;
      path.push({ kind: 'bend', from, direction, centre, normal, clr, angle });
      continue;
    }
    const length = distance(s.from, s.to);
    const next = segments[i + 1];
    const before = path.at(-1);
    if (length > 1e-9) path.push({ kind: 'straight', from: s.from, direction: unit(sub(s.to, s.from)), length });
    else {
      const direction =
        next?.kind === 'bend' ? next.along : before && headingIn(before, segmentLength(before)).direction;
      if (direction) path.push({ kind: 'straight', from: s.from, direction, length: 0 });
    }
  }
  return { segments: path };
}

/** A place along a path with a unit normal carried from its start without twist. */
export interface Station {
  /** mm. */
  readonly run: number;
  readonly point: Vec3;
  readonly direction: Vec3;
  readonly normal: Vec3;
}

/** The place at a running length, mm; clamped to the path's ends. */
export function stationAt(path: Path, run: number): Station {
  let normal = perpendicularTo(headingIn(path.segments[0]!, 0).direction);
  let left = Math.max(0, run);
  for (const [i, s] of path.segments.entries()) {
    const length = segmentLength(s);
    const into = Math.min(left, length);
    const turned = s.kind === 'bend' ? rotateAbout(normal, s.normal, into / s.clr) : normal;
    if (left <= length || i === path.segments.length - 1) {
      const { point, direction } = headingIn(s, into);
      return { run: run - left + into, point, direction, normal: turned };
    }
    normal = turned;
    left -= length;
  }
  throw new RangeError('a path without segments has no places');
}

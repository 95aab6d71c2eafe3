import modeling from '@jscad/modeling';
import { chordsAlong, chordsRound } from './chord.js';
import { jscadPoint, meshFromGeom3 } from './jscad-mesh.js';
import type { Mesh } from './mesh.js';
import { type Heading, headingIn, type Path, type PathSegment, segmentLength, startOf } from './path.js';
import { throughSlices } from './solid-shapes.js';
import { CHORD_ERROR, LENGTH_TOLERANCE } from './tolerance.js';
import { add, cross, perpendicularTo, rotateAbout, scale, type Vec3 } from './vec3.js';

const { slice } = modeling.extrusions;

/**
 * A round solid of `radius` mm swept along an exact path, with flat ends square to the path. Every corner lies on the true
 * surface, so the facets of the straights lie inside it; at the inner side of a bend, where the surface is saddle-shaped, they
 * cross it. Half of `error` mm is spent round the tube and half along the bends (at the outside radius R + r), so no point of
 * a facet is further than `error` from the true surface.
 * Throws RangeError when a bend is too tight for the radius (R <= r).
 */
export function sweepRound(path: Path, radius: number, error: number = CHORD_ERROR): Mesh {
  const chords = chordsRound(radius, error / 2);
  const rings = stations(path, radius, error / 2).map(({ heading, normal }) =>
    slice.fromPoints(ringAt(heading, normal, radius, chords).map(jscadPoint)),
  );
  return meshFromGeom3(throughSlices(rings));
}

/** Area, mm2, of the polygon that stands for the tube's section in a sweep of that radius and error. */
export function sweptSectionArea(radius: number, error: number = CHORD_ERROR): number {
  const n = chordsRound(radius, error / 2);
  return (n / 2) * radius * radius * Math.sin((2 * Math.PI) / n);
}

interface Station {
  readonly heading: Heading;
  /** Unit, square to the heading, carried along the path without twist. */
  readonly normal: Vec3;
}

/** Where the sections stand: at both ends of every segment, and between along the bends. */
function stations(path: Path, radius: number, error: number): Station[] {
  const start = startOf(path);
  let normal = perpendicularTo(start.direction);
  const all: Station[] = [{ heading: start, normal }];
  for (const s of path.segments) {
    if (segmentLength(s) < LENGTH_TOLERANCE) continue;
    const steps = stepsAlong(s, radius, error);
    const from = normal;
    for (let i = 1; i <= steps; i++) {
      if (s.kind === 'bend') normal = rotateAbout(from, s.normal, (s.angle * i) / steps);
      all.push({ heading: headingIn(s, (segmentLength(s) * i) / steps), normal });
    }
  }
  return all;
}

function stepsAlong(s: PathSegment, radius: number, error: number): number {
  if (s.kind === 'straight') return 1;
  if (!(s.clr > radius)) {
    throw new RangeError(`a bend of ${s.clr} mm centreline radius is too tight for a tube of ${2 * radius} mm`);
  }
  return chordsAlong(s.clr + radius, s.angle, error);
}

function ringAt({ point, direction }: Heading, normal: Vec3, radius: number, chords: number): Vec3[] {
  const side = cross(direction, normal);
  return Array.from({ length: chords }, (_, i) => {
    const a = (2 * Math.PI * i) / chords;
    return add(point, add(scale(normal, radius * Math.cos(a)), scale(side, radius * Math.sin(a))));
  });
}

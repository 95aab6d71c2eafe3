import modeling from '@jscad/modeling';
import { chordsAlong, chordsRound } from '../chord.js';
import type { Mesh } from '../mesh/mesh.js';
import {
  carryNormal,
  type Heading,
  headingAt,
  headingIn,
  type Path,
  type PathSegment,
  partOfPath,
  pathLength,
  segmentLength,
  startOf,
} from '../path/path.js';
import { jscadPoint, meshFromGeom3 } from '../solid/jscad-mesh.js';
import { throughSlices } from '../solid/solid-shapes.js';
import { CHORD_ERROR, LENGTH_TOLERANCE } from '../tolerance.js';
import type { Vec2 } from '../vec2.js';
import { add, along, cross, perpendicularTo, rotateAbout, scale, type Vec3 } from '../vec3.js';

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

/** How large a section is at a running length: 1 as drawn. Between two of them it changes evenly. */
export interface SweepSize {
  /** mm; below 0 and beyond the path's length the sweep goes straight on. */
  readonly run: number;
  readonly size: number;
}

/**
 * A convex section swept along an exact path from the first to the last of `sizes` (of rising runs), larger and smaller as they
 * say. The section's x points along `side`, a unit vector square to the start, carried along the path without twist; its y is
 * direction x side; it runs counter-clockwise. Along the bends the corners stand on the true surface, chords of the outermost
 * within `error` mm of it. Throws RangeError when a bend is too tight for the section.
 */
export function sweepSection(
  path: Path,
  section: readonly Vec2[],
  side: Vec3,
  sizes: readonly SweepSize[],
  error: number = CHORD_ERROR,
): Mesh {
  const reach = Math.max(...section.map(([x, y]) => Math.hypot(x, y))) * Math.max(...sizes.map((s) => s.size));
  const [from, to] = [sizes[0]!.run, sizes[sizes.length - 1]!.run];
  const bends = stations(path, reach, error, side).filter(({ run }) => run > from + MERGED && run < to - MERGED);
  const own = sizes.map((s) => stationAt(path, side, s.run));
  const all = [...own, ...bends.filter((b) => own.every((o) => Math.abs(o.run - b.run) > MERGED))];
  all.sort((a, b) => a.run - b.run);
  const n = section.length;
  const positions = all.flatMap(({ heading, normal, run }) => {
    const k = sizeAt(sizes, run);
    const across = cross(heading.direction, normal);
    return section.flatMap(([x, y]) => add(heading.point, add(scale(normal, k * x), scale(across, k * y))));
  });
  const triangles: number[] = [];
  for (let i = 0; i + 1 < all.length; i++) {
    for (let k = 0; k < n; k++) {
      const [a, b] = [i * n + k, i * n + ((k + 1) % n)];
      triangles.push(a, b, b + n, a, b + n, a + n);
    }
  }
  const last = (all.length - 1) * n;
  for (let k = 1; k + 1 < n; k++) triangles.push(0, k + 1, k, last, last + k, last + k + 1);
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

/** Sections nearer than this, mm, are one. */
const MERGED = 1e-3;

function sizeAt(sizes: readonly SweepSize[], run: number): number {
  const i = Math.max(
    1,
    sizes.findIndex((s) => s.run >= run),
  );
  const [a, b] = [sizes[i - 1]!, sizes[i]!];
  return a.size + ((b.size - a.size) * (run - a.run)) / (b.run - a.run);
}

/** The section's place at any running length. */
function stationAt(path: Path, side: Vec3, run: number): Station {
  const whole = pathLength(path);
  const inside = Math.min(whole, Math.max(0, run));
  const { point, direction } = headingAt(path, inside);
  const normal = inside > LENGTH_TOLERANCE ? carryNormal(partOfPath(path, 0, inside), side) : side;
  return { run, heading: { point: along(point, direction, run - inside), direction }, normal };
}

/** Area, mm2, of the polygon that stands for the tube's section in a sweep of that radius and error. */
export function sweptSectionArea(radius: number, error: number = CHORD_ERROR): number {
  const n = chordsRound(radius, error / 2);
  return (n / 2) * radius * radius * Math.sin((2 * Math.PI) / n);
}

/** A section of a sweep. */
export interface Station {
  readonly run: number;
  readonly heading: Heading;
  /** Unit, square to the heading, carried along the path without twist. */
  readonly normal: Vec3;
}

/** Where the sections stand: at both ends of every segment, and between along the bends, their chords at R + `radius` within `error` mm. */
export function stations(path: Path, radius: number, error: number, side?: Vec3): Station[] {
  const start = startOf(path);
  let normal = side ?? perpendicularTo(start.direction);
  let run = 0;
  const all: Station[] = [{ run, heading: start, normal }];
  for (const s of path.segments) {
    if (segmentLength(s) < LENGTH_TOLERANCE) continue;
    const steps = stepsAlong(s, radius, error);
    const from = normal;
    for (let i = 1; i <= steps; i++) {
      if (s.kind === 'bend') normal = rotateAbout(from, s.normal, (s.angle * i) / steps);
      const into = (segmentLength(s) * i) / steps;
      all.push({ run: run + into, heading: headingIn(s, into), normal });
    }
    run += segmentLength(s);
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

/** Corners of a section of `radius` mm, the first along `normal`, counter-clockwise seen against the way. */
export function ringAt({ point, direction }: Heading, normal: Vec3, radius: number, chords: number): Vec3[] {
  const side = cross(direction, normal);
  return Array.from({ length: chords }, (_, i) => {
    const a = (2 * Math.PI * i) / chords;
    return add(point, add(scale(normal, radius * Math.cos(a)), scale(side, radius * Math.sin(a))));
  });
}

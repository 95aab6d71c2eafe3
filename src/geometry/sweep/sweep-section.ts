import modeling from '@jscad/modeling';
import { chordsAlong } from '../chord.js';
import { type Heading, headingIn, type Path, segmentLength, startOf } from '../path/path.js';
import { jscadPoint, meshFromGeom3 } from '../solid/jscad-mesh.js';
import { type Solid, solidOf } from '../solid/solid.js';
import { throughSlices } from '../solid/solid-shapes.js';
import { CHORD_ERROR, LENGTH_TOLERANCE } from '../tolerance.js';
import type { Vec2 } from '../vec2.js';
import { along, cross, rotateAbout, type Vec3 } from '../vec3.js';

const { slice } = modeling.extrusions;

/** A place along a path: where it is, which way it goes, and a unit normal carried along without twist. */
export interface Station extends Heading {
  readonly normal: Vec3;
}

/** The stations of a path no further apart than the chord error allows at `reach` mm from its centreline; `normal` stands at its start. */
export function stationsOf(path: Path, normal: Vec3, reach: number, error: number = CHORD_ERROR): Station[] {
  const all: Station[] = [{ ...startOf(path), normal }];
  for (const s of path.segments) {
    const length = segmentLength(s);
    if (length < LENGTH_TOLERANCE) continue;
    const from = all[all.length - 1]!.normal;
    const steps = s.kind === 'straight' ? 1 : chordsAlong(s.clr + reach, s.angle, error);
    for (let i = 1; i <= steps; i++) {
      const turned = s.kind === 'straight' ? from : rotateAbout(from, s.normal, (s.angle * i) / steps);
      all.push({ ...headingIn(s, (length * i) / steps), normal: turned });
    }
  }
  return all;
}

/** World point of a section's point: first number along the normal, second along direction x normal, mm. */
export function onStation({ point, direction, normal }: Station, [n, side]: Vec2): Vec3 {
  return along(along(point, normal, n), cross(direction, normal), side);
}

/**
 * A solid of any simple section, counter-clockwise seen against the way of the path, swept along it; flat ends square to the path,
 * corners on the true surface, half of `error` mm spent along the bends. The section's first coordinate runs along the carried
 * normal, its second along direction x normal. No point of the section may reach a bend's centre.
 */
export function sweepSection(path: Path, normal: Vec3, section: readonly Vec2[], error: number = CHORD_ERROR): Solid {
  const reach = Math.max(...section.map(([x, y]) => Math.hypot(x, y)));
  const rings = stationsOf(path, normal, reach, error / 2).map((s) =>
    slice.fromPoints(section.map((p) => jscadPoint(onStation(s, p)))),
  );
  return solidOf(meshFromGeom3(throughSlices(rings)));
}

/** The section between two radii from angle `from` to `to`, rad, both turned from the normal towards direction x normal; to - from below 2 pi. */
export function sectorSection(
  radii: readonly [inner: number, outer: number],
  from: number,
  to: number,
  error: number = CHORD_ERROR,
): Vec2[] {
  const chords = chordsAlong(radii[1], to - from, error / 2);
  const arc = (r: number): Vec2[] =>
    Array.from({ length: chords + 1 }, (_, i): Vec2 => {
      const a = from + ((to - from) * i) / chords;
      return [r * Math.cos(a), r * Math.sin(a)];
    });
  return [...arc(radii[1]), ...arc(radii[0]).reverse()];
}

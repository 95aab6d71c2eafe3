import modeling from '@jscad/modeling';
import { type Frame, frameAlong, matrixOf } from '../../src/geometry/frame.js';
import { type Geom3, geom3FromMesh } from '../../src/geometry/solid/jscad-mesh.js';
import type { Solid } from '../../src/geometry/solid/solid.js';

const { union, subtract, intersect, scission } = modeling.booleans;
const { hull, hullPoints3 } = modeling.hulls;
const { transform, translate } = modeling.transforms;
const { extrudeLinear } = modeling.extrusions;
// its type is of the module, not of the function
const generalize = modeling.modifiers.generalize as unknown as (options: object, geometry: Geom3) => Geom3;
const { cuboid, polygon } = modeling.primitives;
const { measureVolume } = modeling.measurements;
const { geom3 } = modeling.geometries;

/** Larger than any part, mm. */
const HALF_SPACE = 4000;

/** The solid by @jscad/modeling's own booleans, prepared for its serializer as its manual says. */
export const jscadSolid = (solid: Solid): Geom3 =>
  generalize({ snap: true, simplify: true, triangulate: true }, jscadBuilt(solid));

function jscadBuilt(solid: Solid): Geom3 {
  switch (solid.kind) {
    case 'mesh':
      return geom3FromMesh(solid.mesh);
    case 'union':
      return union(solid.of.map(jscadBuilt)) as Geom3;
    case 'intersection':
      return intersect(solid.of.map(jscadBuilt)) as Geom3;
    case 'hull':
      return hull(solid.of.map(jscadBuilt)) as Geom3;
    case 'hull-of-points':
      return geom3.create(hullPoints3(solid.points.map((p) => [p[0], p[1], p[2]] as [number, number, number])));
    case 'raised': {
      const flat = solid.rings.map((ring) => polygon({ points: ring.map(([x, y]): [number, number] => [x, y]) }));
      return translate([0, 0, solid.from], extrudeLinear({ height: solid.to - solid.from }, union(flat))) as Geom3;
    }
    case 'difference':
      return subtract(jscadBuilt(solid.from), ...solid.minus.map(jscadBuilt)) as Geom3;
    case 'placed':
      return moved(solid.frame, jscadBuilt(solid.solid));
    case 'trimmed': {
      const side = cuboid({ size: [HALF_SPACE, HALF_SPACE, HALF_SPACE], center: [0, 0, HALF_SPACE / 2] });
      return intersect(
        jscadBuilt(solid.solid),
        moved(frameAlong(solid.plane.point, solid.plane.normal), side),
      ) as Geom3;
    }
    case 'foot-chamfered':
      // it has no counterpart: this spares the peer a step
      return jscadBuilt(solid.solid);
    case 'largest-body':
      return (scission(jscadBuilt(solid.solid)) as Geom3[]).reduce((a, b) =>
        measureVolume(b) > measureVolume(a) ? b : a,
      );
  }
}

const moved = (frame: Frame, g: Geom3): Geom3 =>
  transform([...matrixOf(frame)] as unknown as Parameters<typeof transform>[0], g) as Geom3;

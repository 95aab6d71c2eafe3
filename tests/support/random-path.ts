import fc from 'fast-check';
import { bendAngles, type ControlPolygon, tangentLength } from '../../src/geometry/path/control-polygon.js';
import { polygonFromLra } from '../../src/geometry/path/lra.js';
import { along, rotateAbout, unit, type Vec3 } from '../../src/geometry/vec3.js';

/** Random tubes that can be bent: straights from 0 mm, angles from 1 to 170 deg, radii from 40 to 120 mm, 0 to 5 bends. */
export const arbitraryTube: fc.Arbitrary<ControlPolygon> = fc
  .record({
    rows: fc.array(
      fc.record({
        straight: fc.double({ min: 0, max: 200, noNaN: true }),
        rotation: fc.double({ min: -3.1, max: 3.1, noNaN: true }),
        angle: fc.double({ min: 0.02, max: 2.96, noNaN: true }),
        clr: fc.double({ min: 40, max: 120, noNaN: true }),
      }),
      { maxLength: 5 },
    ),
    lastStraight: fc.double({ min: 1, max: 200, noNaN: true }),
    start: fc.tuple(coordinate(), coordinate(), coordinate()),
    axis: fc.tuple(component(), component(), component()).filter((v) => Math.hypot(...v) > 0.1),
  })
  .map(({ rows, lastStraight, start, axis }) => {
    const direction = unit(axis);
    const side: Vec3 = Math.abs(direction[0]) < 0.9 ? [1, 0, 0] : [0, 1, 0];
    const flat = along(side, direction, -(side[0] * direction[0] + side[1] * direction[1] + side[2] * direction[2]));
    const normal = rotateAbout(unit(flat), direction, 0.7);
    const first = rows.map((r, i) => (i === 0 ? { ...r, rotation: 0 } : r));
    return polygonFromLra({ rows: first, lastStraight }, { point: start, direction, normal });
  })
  .filter((p) => bendAngles(p.points).every((a, i) => tangentLength(p.clr[i]!, a) < 2000));

function coordinate(): fc.Arbitrary<number> {
  return fc.double({ min: -500, max: 500, noNaN: true });
}

function component(): fc.Arbitrary<number> {
  return fc.double({ min: -1, max: 1, noNaN: true });
}

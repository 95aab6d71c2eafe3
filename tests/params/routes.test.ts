import { describe, expect, test } from 'vitest';
import { polygonLength } from '../../src/geometry/path/control-polygon.js';
import { BASE, planFrom, problemsOf } from './base-plan.js';

const withRoutes = (routes: string, more = '') => `${BASE}${more}  routes:\n${routes}`;

const XYZ = `    - by: xyz
      cylinder: 1
      inlet: 2
      points: [[0, 0, 0], [0, 0, 150], [0, -300, 150]]
      clr: 63.5
`;

const LRA = `    - by: lra
      cylinder: 2
      plane: [1, 0, 0]
      rows:
        - { straight: 86.5, angle: 90, clr: 63.5 }
        - { straight: 100, rotation: 90, angle: 30, clr: 63.5 }
      last_straight: 50
`;

const faults = (text: string) => problemsOf(text).map((p) => `${p.path}: ${p.message}`);

describe('routes given by hand', () => {
  test('intersection points come as they are, one radius for every bend', () => {
    expect(planFrom(withRoutes(XYZ)).runners.given).toEqual([
      {
        cylinder: 1,
        inlet: 2,
        points: [
          [0, 0, 0],
          [0, 0, 150],
          [0, -300, 150],
        ],
        clr: [63.5],
      },
    ]);
  });

  test('a list of radii, and a straight tube without any', () => {
    expect(planFrom(withRoutes(XYZ.replace('clr: 63.5', 'clr: [63.5]'))).runners.given[0]!.clr).toEqual([63.5]);
    const straight = XYZ.replace('[0, 0, 150], ', '').replace('[0, -300, 150]', '[0, 0, 150]');
    expect(planFrom(withRoutes(straight)).runners.given[0]!.clr).toEqual([]);
  });

  test('rows become points from the port on', () => {
    const [route] = planFrom(withRoutes(LRA)).runners.given;
    expect(route!.inlet).toBeNull();
    const close = (p: readonly number[], q: readonly number[]) => {
      for (const [i, v] of q.entries()) expect(p[i]).toBeCloseTo(v, 9);
    };
    // Along +z, then right-handed about +x: from +z to -y.
    close(route!.points[0]!, [95, 0, 0]);
    close(route!.points[1]!, [95, 0, 150]);
    const t30 = 63.5 * Math.tan(Math.PI / 12);
    close(route!.points[2]!, [95, -(63.5 + 100 + t30), 150]);
    expect(polygonLength({ points: route!.points, clr: route!.clr })).toBeCloseTo(
      86.5 + 100 + 50 + 63.5 * (Math.PI / 2 + Math.PI / 6),
      9,
    );
  });

  test('a plane half a degree off is squared to the port', () => {
    const [route] = planFrom(withRoutes(LRA.replace('[1, 0, 0]', '[1, 0, 0.005]'))).runners.given;
    expect(route!.points[1]![2]).toBeCloseTo(150, 9);
  });

  test.each([
    ['cylinder: 1', 'cylinder: 3', 'cylinder: cylinder 3 has no port; the ports are of cylinders 1, 2'],
    ['inlet: 2', 'inlet: 3', 'inlet: expected an inlet from 1 to 2 of its collector, found 3'],
    ['inlet: 2', 'inlet: 7', 'inlet: expected a whole number from 1 to 6, found 7'],
    ['clr: 63.5', 'clr: 60', 'clr: no bend in stock has a CLR of 60 mm; tube.bends has 63.5 mm'],
    ['clr: 63.5', 'clr: [60]', 'clr.0: no bend in stock has a CLR of 60 mm; tube.bends has 63.5 mm'],
    ['clr: 63.5', 'clr: [-1]', 'clr.0: expected a length over 0 mm and at most 1000 mm, found -1 mm'],
    ['clr: 63.5', 'clr: [63.5, 63.5]', 'clr: expected as many radii as the route has bends (1), found 2'],
    ['clr: 63.5', 'clr: big', 'clr: expected a length, or a list of lengths with one for each bend, found "big"'],
    [
      '[[0, 0, 0]',
      '[[0, 0, 1]',
      'points.0: the route must begin at its port, [0 mm, 0 mm, 0 mm]; this point is 1 mm away',
    ],
    ['[0, -300, 150]]', '[0, 0, 150]]', 'points.2: this point is the same as the one before'],
    [
      '[0, -300, 150]]',
      '[0, 0, -150]]',
      'points.1: the route turns back on itself here; make a U-bend from two points',
    ],
    [
      '[0, -300, 150]]',
      '[0, -40, 150]]',
      'points.2: the bends before and after this leg overlap by 23.5 mm; move the points apart or take a smaller CLR',
    ],
    [
      'points: [[0, 0, 0], [0, 0, 150], [0, -300, 150]]',
      'points: [[0, 0, 0]]',
      'points: expected at least 2 entries, found [[0,0,0]]',
    ],
    ['by: xyz', 'by: xzy', 'by: expected xyz or lra, found "xzy"'],
  ])('%j made %j', (part, by, message) => {
    expect(faults(withRoutes(XYZ.replace(part, by)))).toEqual([`runners.routes.0.${message}`]);
  });

  test.each([
    [
      'plane: [1, 0, 0]',
      'plane: [1, 0, 0.02]',
      "plane: the normal of a bend plane is square to the tube: expected a direction square to the port's axis [0, 0, 1]",
    ],
    [
      'plane: [1, 0, 0]',
      'plane: [0, 0, 1]',
      "plane: the normal of a bend plane is square to the tube: expected a direction square to the port's axis [0, 0, 1]",
    ],
    [
      'angle: 90, clr: 63.5',
      'angle: 90, clr: 80',
      'rows.0.clr: no bend in stock has a CLR of 80 mm; tube.bends has 63.5 mm',
    ],
    ['angle: 90', 'angle: 180', 'rows.0.angle: expected an angle from 0.1 to 170 degrees, found 180'],
    ['straight: 100', 'straight: -1', 'rows.1.straight: expected a length from 0 mm to 10000 mm, found -1 mm'],
  ])('%j made %j', (part, by, message) => {
    expect(faults(withRoutes(LRA.replace(part, by)))).toEqual([`runners.routes.0.${message}`]);
  });

  test('one route a cylinder, one cylinder an inlet', () => {
    expect(faults(withRoutes(XYZ + XYZ))).toEqual(['runners.routes.1.cylinder: cylinder 1 has a route already']);
    const both = XYZ + LRA.replace('cylinder: 2', 'cylinder: 2\n      inlet: 2');
    expect(faults(withRoutes(both))).toEqual(['runners.routes.1.inlet: inlet 2 is taken by the route of cylinder 1']);
  });

  test('the inlet of a route agrees with the order of the collector', () => {
    const ordered = withRoutes(XYZ).replace('direction: [0, -1, 0]', 'direction: [0, -1, 0]\n  order: [1, 2]');
    expect(faults(ordered)).toEqual(["runners.routes.0.inlet: the collector's order gives inlet 2 to cylinder 2"]);
    expect(
      planFrom(ordered.replace('\n  order: [1, 2]\n  outlet', '\n  order: [2, 1]\n  outlet')).runners.given,
    ).toHaveLength(1);
  });

  test('route: given wants every primary', () => {
    const text = withRoutes(XYZ, '  route: given\n');
    expect(faults(text)).toEqual(['runners.routes: route: given wants a route for every primary; cylinder 2 has none']);
    expect(planFrom(text + LRA).runners.given).toHaveLength(2);
  });
});

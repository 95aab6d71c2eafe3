import { advance, frameAlong } from '../../src/geometry/frame.js';
import { pathFromPolygon } from '../../src/geometry/path/control-polygon.js';
import { pathLength, segmentLength } from '../../src/geometry/path/path.js';
import { along } from '../../src/geometry/vec3.js';
import type { Plan } from '../../src/params/plan.js';
import { collectorLength } from '../../src/routing/problem.js';
import type { RoutedPrimary, RoutedSecondary } from '../../src/routing/routed.js';
import { twin } from './twin.js';

/** The twin with primaries that grow on the way, and a secondary of one bend from its merge to a last collector of one inlet. */
export function steppedPair(): { plan: Plan; primaries: RoutedPrimary[]; secondaries: RoutedSecondary[] } {
  const small = twin();
  const bends = [{ clr: 72, maxAngle: Math.PI, leg: 40, shortLeg: 40 }];
  const grown = { od: 45, wall: 1.5 };
  const merge = small.plan.collectors[0]!;
  const secondary = { od: merge.outlet.od, wall: 1.5 };
  // the inlets stand as far apart as before, so that the routes of the twin still meet them
  const narrowed = { ...merge, inletGap: merge.inletGap - (grown.od - small.plan.tube.od) };
  const plan: Plan = {
    ...small.plan,
    tube: {
      ...small.plan.tube,
      steps: [{ at: 240, within: 60, ...grown, bends: small.plan.tube.bends, sticks: small.plan.tube.sticks }],
    },
    collectors: [narrowed],
    secondaries: { length: 0, tolerance: 1, ...secondary, bends, sticks: small.plan.tube.sticks },
  };
  const start = advance(merge.frame, collectorLength(narrowed, plan));
  const corner = along(start.origin, start.z, 130);
  const polygon = { points: [start.origin, corner, along(corner, [0.8, -0.6, 0], 150)], clr: [72] };
  const path = pathFromPolygon(polygon);
  const length = pathLength(path);
  const last = {
    ...merge,
    name: 'last',
    cylinders: [],
    from: [merge.name],
    frame: frameAlong(polygon.points[2]!, [0.8, -0.6, 0]),
    mergeHalfAngle: 0,
    outlet: { od: 60.3, wall: 2, coneLength: 60, tail: 40, throat: null },
  };
  return {
    plan: { ...plan, collectors: [narrowed, last], secondaries: { ...plan.secondaries!, length } },
    primaries: small.primaries.map((p): RoutedPrimary => {
      // in the middle of the straight between the bends
      const [first, bend, straight] = p.path.segments.map(segmentLength);
      const from = first! + bend! + straight! / 2;
      return { ...p, sections: [p.sections[0]!, { from, ...grown }] };
    }),
    secondaries: [
      {
        id: merge.name,
        name: `secondary from ${merge.name}`,
        from: 0,
        collector: 1,
        inlet: 1,
        polygon,
        path,
        length,
        target: length,
        sections: [{ from: 0, ...secondary }],
        givenByHand: false,
      },
    ],
  };
}

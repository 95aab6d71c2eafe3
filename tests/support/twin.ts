import { frameAlong } from '../../src/geometry/frame.js';
import { inletFrames, ringRadius } from '../../src/geometry/merge/inlet-ring.js';
import { circleOutline, rectangleOutline } from '../../src/geometry/outline/make.js';
import { pathFromPolygon } from '../../src/geometry/path/control-polygon.js';
import { pathLength } from '../../src/geometry/path/path.js';
import { along, unit, type Vec3 } from '../../src/geometry/vec3.js';
import type { Plan } from '../../src/params/plan.js';
import type { RoutedPrimary } from '../../src/routing/routed.js';
import { markedJig } from './jig-fixture.js';
import { boltAt, planWith } from './plan-fixture.js';

/** A parallel twin of our own: one round port square to the head, one oval port tilted downwards, two into one. */
export function twin(bed: Vec3 = [210, 210, 210]): { plan: Plan; primaries: RoutedPrimary[] } {
  const ports = [
    { at: [0, 0] as const, outline: circleOutline([0, 0], 36) },
    { at: [110, 0] as const, outline: rectangleOutline(42, 32, 14) },
  ];
  const bolts = [boltAt([-38, 6]), boltAt([55, 22]), boltAt([55, -22]), boltAt([150, 0])];
  const base = planWith(ports, bolts, {}, 'twin');
  const tilted = frameAlong([110, 0, 0], unit([0, -0.25, 1]));
  const collector = {
    name: 'Y merge',
    cylinders: [1, 2],
    from: [],
    frame: frameAlong([60, -260, 170], [0, -1, 0]),
    inletGap: 4,
    mergeHalfAngle: 0.14,
    order: { kind: 'free' } as const,
    outlet: { od: 48.3, wall: 2, coneLength: 90, tail: 30, throat: null },
    centre: 'open' as const,
    slip: null,
    branch: null,
    freedom: null,
  };
  const plan: Plan = {
    ...base,
    ports: [base.ports[0]!, { ...base.ports[1]!, frame: tilted }],
    collectors: [collector],
    tube: { ...base.tube, bends: [{ clr: 63.5, maxAngle: Math.PI, leg: 0, shortLeg: 0 }] },
    jig: markedJig({ bed }),
  };
  const inlets = inletFrames(collector.frame, 2, ringRadius(2, plan.tube.od, 4), collector.mergeHalfAngle);
  // the inlet that lies further along x takes cylinder 2
  const order = inlets[0]!.origin[0] < inlets[1]!.origin[0] ? [1, 2] : [2, 1];
  const primaries = plan.ports.map((port): RoutedPrimary => {
    const inlet = order.indexOf(port.cylinder) + 1;
    const end = inlets[inlet - 1]!;
    const polygon = {
      points: [
        port.frame.origin,
        along(port.frame.origin, port.frame.z, 170),
        along(end.origin, end.z, -110),
        end.origin,
      ],
      clr: [63.5, 63.5],
    };
    const path = pathFromPolygon(polygon);
    const length = pathLength(path);
    return {
      id: String(port.cylinder),
      name: `cylinder ${port.cylinder}`,
      cylinder: port.cylinder,
      collector: 0,
      inlet,
      polygon,
      path,
      length,
      target: length,
      sections: [{ from: 0, od: plan.tube.od, wall: plan.tube.wall }],
      givenByHand: true,
    };
  });
  return { plan, primaries };
}

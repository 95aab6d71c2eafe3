import { type Frame, frameAlong, pointFrom } from '../geometry/frame.js';
import { fieldOf, type Reach } from '../geometry/scan/field.js';
import type { Scan } from '../geometry/scan/scan.js';
import type { ConvexObstacle, Obstacle } from '../geometry/space/obstacle.js';
import { dot, scale, sub } from '../geometry/vec3.js';
import { compareLists, length7, placeInOrder, wayInOrder } from './last-digits.js';
import { seenPoint, seenWay } from './seen-place.js';

/** An obstacle in the axes of a frame of either hand; a scan gets its grid there, over the reach of the tubes given in those axes. */
export function seenObstacle(o: Obstacle, frame: Frame, reach: Reach): Obstacle {
  return o.kind === 'mesh'
    ? { kind: 'mesh', field: fieldOf(seenScan(o.field.scan, frame), reach) }
    : seenConvex(o, frame);
}

/** The same solid is the same numbers, however a plan described it: a plane by any of its points, a box by any of its corners first. */
function seenConvex(o: ConvexObstacle, frame: Frame): ConvexObstacle {
  switch (o.kind) {
    case 'half-space': {
      const normal = seenWay(frame, o.normal);
      return { kind: o.kind, normal, point: scale(normal, length7(dot(o.normal, sub(o.point, frame.origin)))) };
    }
    case 'box':
      return seenBox(o, frame);
    default: {
      const start = seenPoint(frame, o.frame.origin);
      return { ...o, length: length7(o.length), frame: frameAlong(start, seenWay(frame, o.frame.z)) };
    }
  }
}

/** A box about its middle, its sides put in order by where they point. */
function seenBox({ frame: own, from, to }: Extract<Obstacle, { kind: 'box' }>, frame: Frame): ConvexObstacle {
  const middle = pointFrom(own, [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2, (from[2] + to[2]) / 2]);
  const sides = [own.x, own.y, own.z].map((axis, i) => {
    const seen = seenWay(frame, axis);
    const sense = seen.map(wayInOrder).find((c) => c !== 0)! < 0 ? -1 : 1;
    return { axis: scale(seen, sense), half: length7((to[i]! - from[i]!) / 2) };
  });
  sides.sort((a, b) => compareLists(b.axis.map(wayInOrder), a.axis.map(wayInOrder)));
  const [x, y, z] = sides as [(typeof sides)[0], (typeof sides)[0], (typeof sides)[0]];
  return {
    kind: 'box',
    frame: { origin: seenPoint(frame, middle), x: x.axis, y: y.axis, z: z.axis },
    from: [-x.half, -y.half, -z.half],
    to: [x.half, y.half, z.half],
  };
}

/** A scan whose points stand in the axes of a frame. It asks the tree of the scan it comes from. */
function seenScan(scan: Scan, frame: Frame): Scan {
  const { positions, triangles } = scan.mesh;
  const seen = new Float64Array(positions.length);
  for (let i = 0; i < positions.length; i += 3) {
    seen.set(seenPoint(frame, [positions[i]!, positions[i + 1]!, positions[i + 2]!]), i);
  }
  return {
    mesh: { positions: seen, triangles },
    approach: (p, q, within) => scan.approach(pointFrom(frame, p), pointFrom(frame, q), within),
  };
}

const KINDS: readonly Obstacle['kind'][] = ['half-space', 'box', 'cylinder', 'capsule', 'mesh'];

/** What an obstacle looks like in the axes of a frame, as numbers by which obstacles, and looks, are put in order. */
export function obstacleInOrder(o: Obstacle, frame: Frame): number[] {
  return [
    KINDS.indexOf(o.kind),
    ...(o.kind === 'mesh' ? momentsOf(o.field.scan, frame) : convexInOrder(seenConvex(o, frame))),
  ];
}

function convexInOrder(o: ConvexObstacle): number[] {
  if (o.kind === 'half-space') return [...o.normal.map(wayInOrder), ...o.point.map(placeInOrder)];
  const { origin, x, z } = o.frame;
  const at = [...origin.map(placeInOrder), ...z.map(wayInOrder)];
  if (o.kind === 'box') return [...at, ...x.map(wayInOrder), ...o.to.map(placeInOrder)];
  return [...at, placeInOrder(o.radius), placeInOrder(o.length)];
}

/** The middle of a scan's points in the axes of a frame, and which way they lean from its origin (third over second moments), mm. */
function momentsOf({ mesh: { positions } }: Scan, { origin: [ox, oy, oz], x, y, z }: Frame): number[] {
  let [sx, sy, sz, lx, ly, lz, spread] = [0, 0, 0, 0, 0, 0, 0];
  // plain numbers: a scan has hundreds of thousands of points, and a list for each takes most of the time
  for (let i = 0; i < positions.length; i += 3) {
    const u = positions[i]! - ox;
    const v = positions[i + 1]! - oy;
    const w = positions[i + 2]! - oz;
    const a = u * x[0] + v * x[1] + w * x[2];
    const b = u * y[0] + v * y[1] + w * y[2];
    const c = u * z[0] + v * z[1] + w * z[2];
    const squared = a * a + b * b + c * c;
    spread += squared;
    sx += a;
    sy += b;
    sz += c;
    lx += a * squared;
    ly += b * squared;
    lz += c * squared;
  }
  const count = positions.length / 3;
  return [sx / count, sy / count, sz / count, lx / spread, ly / spread, lz / spread].map(placeInOrder);
}

import { headingAt, type Path, pathLength } from '../../../geometry/path/path.js';
import { add2, dot2, rotate2, sub2, type Vec2 } from '../../../geometry/vec2.js';
import { dot, type Vec3 } from '../../../geometry/vec3.js';

/** A hole of the base plate by column and row, from 0. */
export type Hole = readonly [column: number, row: number];

/** A saddle of a tube that lies over the plate: z up from the plate's top, holes at whole pitches. */
export interface SaddlePlace {
  readonly piece: string;
  /** mm along the whole path. */
  readonly run: number;
  readonly point: Vec3;
  readonly direction: Vec3;
  /** Outside radius of the tube, mm. */
  readonly radius: number;
  /** Unit, level, the way of the gas. */
  readonly level: Vec2;
  readonly halfLength: number;
  readonly halfWidth: number;
  /** Before the post as the gas goes, and behind it. */
  readonly holes: readonly [front: Hole, back: Hole];
  /** What the foot covers, convex. */
  readonly foot: readonly Vec2[];
}

/** A piece as it lies: its stretch of the whole path and where its joints to others are. */
export interface LyingPiece {
  readonly name: string;
  readonly radius: number;
  readonly from: number;
  readonly to: number;
  readonly jointBefore: boolean;
  readonly jointAfter: boolean;
}

/** A tube lying over the plate. */
export interface LyingTube {
  readonly path: Path;
  readonly pieces: readonly LyingPiece[];
}

/** Where a saddle may stand, before it is known what its foot is. */
export type Post = Omit<SaddlePlace, 'piece' | 'holes' | 'foot'>;

/** True when the rest of the tube passes the post with 2 mm to spare. */
export function clearOfTube({ path, pieces }: LyingTube, post: Post): boolean {
  const own = post.halfLength + 2.5 * post.radius;
  const count = Math.ceil(pathLength(path) / 2);
  for (let i = 0; i <= count; i++) {
    const run = (pathLength(path) * i) / count;
    if (Math.abs(run - post.run) < own) continue;
    const radius = (pieces.find((p) => run <= p.to) ?? pieces[pieces.length - 1]!).radius;
    const [x, y, z] = headingAt(path, run).point;
    const off = sub2([x, y], [post.point[0], post.point[1]]);
    const [u, v] = [Math.abs(dot2(off, post.level)), Math.abs(dot2(off, across(post.level)))];
    if (u < post.halfLength + radius + 2 && v < post.halfWidth + radius + 2 && z - radius < post.point[2] + post.radius)
      return false;
  }
  return true;
}

/** Least distance of a post's corners from the plane a ring ends in, mm. */
const BESIDE = 1;

/** True when all of the post is beyond what a ring takes up beside the joints of its piece: on a bend the two lean towards each other. */
export function clearOfJoints(
  path: Path,
  { from, to, jointBefore, jointAfter }: LyingPiece,
  post: Post,
  room: number,
): boolean {
  const ends = [
    ...(jointBefore ? [{ ...headingAt(path, from + room), way: 1 }] : []),
    ...(jointAfter ? [{ ...headingAt(path, to - room), way: -1 }] : []),
  ];
  return ends.every(({ point: [x, y, z], direction, way }) =>
    postCorners(post).every((c) =>
      // at the tube's axis, and as deep below it as a ring hangs
      [0, 1.5 * post.radius].every((deep) => {
        const off: Vec3 = [c[0] - x, c[1] - y, post.point[2] - deep - z];
        return way * dot(off, direction) >= BESIDE;
      }),
    ),
  );
}

/** Corners of a post seen from above, counter-clockwise. */
export function postCorners({ point, level, halfLength, halfWidth }: Post): Vec2[] {
  const corners: Vec2[] = [
    [-halfLength, -halfWidth],
    [halfLength, -halfWidth],
    [halfLength, halfWidth],
    [-halfLength, halfWidth],
  ];
  return corners.map((p) => add2([point[0], point[1]], rotate2(p, level[0], level[1])));
}

/** Level, to the left of the way of the gas seen from above. */
export const across = ([x, y]: Vec2): Vec2 => [-y, x];

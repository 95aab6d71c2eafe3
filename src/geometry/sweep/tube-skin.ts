import type { Frame } from '../frame.js';
import type { Mesh } from '../mesh/mesh.js';
import { headingAt, type Path } from '../path/path.js';
import { add, along, cross, dot, scale, sub, type Vec3 } from '../vec3.js';

/**
 * The skin of a round tube unrolled: a place on it is a running length, mm, and an angle about the centreline, rad, from the
 * outside of the bends (0) towards `up` (a quarter turn). The path lies in the plane across the unit `up`, or is one straight
 * square to it.
 */
export interface TubeSkin {
  readonly path: Path;
  readonly up: Vec3;
  /** mm. */
  readonly radius: number;
}

/** Unit direction straight out of the skin at a running length and an angle. */
export function skinNormal({ path, up }: TubeSkin, run: number, angle: number): Vec3 {
  const out = cross(headingAt(path, run).direction, up);
  return add(scale(out, Math.cos(angle)), scale(up, Math.sin(angle)));
}

/** Place on the skin: z out of it, x along the tube. */
export function skinFrame(skin: TubeSkin, run: number, angle: number): Frame {
  const { point, direction } = headingAt(skin.path, run);
  const z = skinNormal(skin, run, angle);
  return { origin: along(point, z, skin.radius), x: direction, y: cross(z, direction), z };
}

/** Angle of a direction square to the tube at a running length, rad, in (-pi, pi]. */
export function skinAngle({ path, up }: TubeSkin, run: number, direction: Vec3): number {
  return Math.atan2(dot(direction, up), dot(direction, cross(headingAt(path, run).direction, up)));
}

/** How far a point stands from the skin at about a running length, mm; negative below it. The path is followed in its own circle or straight there. */
export function heightOver({ path, radius }: TubeSkin, run: number, p: Vec3): number {
  let left = run;
  for (const [i, s] of path.segments.entries()) {
    const length = s.kind === 'straight' ? s.length : s.clr * s.angle;
    if (left > length && i + 1 < path.segments.length) {
      left -= length;
      continue;
    }
    if (s.kind === 'straight') {
      const way = sub(p, s.from);
      return Math.sqrt(Math.max(0, dot(way, way) - dot(way, s.direction) ** 2)) - radius;
    }
    const way = sub(p, s.centre);
    const aside = dot(way, s.normal);
    const from = Math.sqrt(Math.max(0, dot(way, way) - aside * aside));
    return Math.hypot(from - s.clr, aside) - radius;
  }
  return -radius;
}

/** A curved block on the skin: between two running lengths, two angles and two heights over the skin. */
export interface SkinBlock {
  readonly from: number;
  readonly to: number;
  readonly angleFrom: number;
  readonly angleTo: number;
  readonly low: number;
  readonly high: number;
}

/** Chords of a block along the tube and round it are no longer than this, mm: within 0.05 mm of a skin of 20 mm and more. */
const CHORD = 2.5;

/** Blocks on the skin as one closed mesh; they must not overlap. Its faces across the tube stand in planes square to the centreline. */
export function skinBlocks(skin: TubeSkin, blocks: readonly SkinBlock[]): Mesh {
  const positions: number[] = [];
  const triangles: number[] = [];
  for (const block of blocks) addBlock(skin, block, positions, triangles);
  return { positions: Float64Array.from(positions), triangles: Uint32Array.from(triangles) };
}

function addBlock(skin: TubeSkin, block: SkinBlock, positions: number[], triangles: number[]): void {
  const { from, to, angleFrom, angleTo, low, high } = block;
  const { radius } = skin;
  const round = Math.max(1, Math.ceil(((angleTo - angleFrom) * radius) / CHORD));
  const steps = isStraight(skin) ? 1 : Math.max(1, Math.ceil((to - from) / CHORD));
  const ring = 2 * (round + 1);
  const first = positions.length / 3;
  for (let i = 0; i <= steps; i++) {
    const run = from + ((to - from) * i) / steps;
    const { point } = beyond(skin.path, run);
    // outside first, one way round, then the inside back
    for (const [height, back] of [
      [high, false],
      [low, true],
    ] as const) {
      for (let k = 0; k <= round; k++) {
        const share = (back ? round - k : k) / round;
        const n = skinNormal(skin, run, angleFrom + (angleTo - angleFrom) * share);
        positions.push(...along(point, n, radius + height));
      }
    }
  }
  for (let i = 0; i < steps; i++) {
    for (let k = 0; k < ring; k++) {
      const a = first + i * ring + k;
      const b = first + i * ring + ((k + 1) % ring);
      triangles.push(a, b + ring, b, a, a + ring, b + ring);
    }
  }
  for (let k = 0; k < round; k++) {
    const [a, b, c, d] = [k, k + 1, ring - 2 - k, ring - 1 - k].map((j) => first + j) as [
      number,
      number,
      number,
      number,
    ];
    const end = steps * ring;
    triangles.push(a, b, c, a, c, d, a + end, c + end, b + end, a + end, d + end, c + end);
  }
}

const isStraight = ({ path }: TubeSkin): boolean => path.segments.every((s) => s.kind === 'straight');

/** Point at a running length that may lie beyond the path's ends, straight on there. */
function beyond(path: Path, run: number): { readonly point: Vec3 } {
  if (run >= 0) return headingAt(path, run);
  const { point, direction } = headingAt(path, 0);
  return { point: along(point, direction, run) };
}

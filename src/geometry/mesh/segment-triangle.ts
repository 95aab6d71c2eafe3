/** The least distance found so far from a segment to triangles: squared, mm2, and where along the segment, 0 to 1. */
export interface SegmentBest {
  squared: number;
  t: number;
}

/**
 * Sine of the angle between two sides, and twice the area, mm2, below which a triangle counts as a line, and its edges say all:
 * rounding would decide what is over its inside. A side of a metre then misleads by 0.0001 mm.
 */
const FLAT = 1e-7;
const SMALL = 1e-20;

/**
 * Lowers `best` to the squared distance from the segment p-q to the triangle whose corners stand at a, b and c in `positions`,
 * when that is smaller. Exact also where triangle or segment has shrunk to a line or a point. Of the segment only the place
 * nearest the triangle's plane can be nearest to the inside: from any other one over the inside the segment comes closer until
 * it gets there or passes an edge.
 */
export function lowerToTriangle(
  best: SegmentBest,
  px: number,
  py: number,
  pz: number,
  qx: number,
  qy: number,
  qz: number,
  positions: Float64Array,
  a: number,
  b: number,
  c: number,
): void {
  const ax = positions[a]!;
  const ay = positions[a + 1]!;
  const az = positions[a + 2]!;
  const ux = positions[b]! - ax;
  const uy = positions[b + 1]! - ay;
  const uz = positions[b + 2]! - az;
  const vx = positions[c]! - ax;
  const vy = positions[c + 1]! - ay;
  const vz = positions[c + 2]! - az;
  const nx = uy * vz - uz * vy;
  const ny = uz * vx - ux * vz;
  const nz = ux * vy - uy * vx;
  const nn = nx * nx + ny * ny + nz * nz;
  const rx = px - ax;
  const ry = py - ay;
  const rz = pz - az;
  const dx = qx - px;
  const dy = qy - py;
  const dz = qz - pz;
  const uu = ux * ux + uy * uy + uz * uz;
  const vv = vx * vx + vy * vy + vz * vz;
  if (nn > Math.max(FLAT * FLAT * uu * vv, SMALL * SMALL)) {
    const hp = nx * rx + ny * ry + nz * rz;
    const hq = hp + nx * dx + ny * dy + nz * dz;
    const t = hp > 0 !== hq > 0 ? hp / (hp - hq) : Math.abs(hp) <= Math.abs(hq) ? 0 : 1;
    const h = t === 0 ? hp : t === 1 ? hq : 0;
    if (h * h >= best.squared * nn) return;
    const fx = rx + dx * t;
    const fy = ry + dy * t;
    const fz = rz + dz * t;
    // twice the areas of the triangles that the foot makes with two sides, times twice that of the whole
    const beta = (fy * vz - fz * vy) * nx + (fz * vx - fx * vz) * ny + (fx * vy - fy * vx) * nz;
    const gamma = (uy * fz - uz * fy) * nx + (uz * fx - ux * fz) * ny + (ux * fy - uy * fx) * nz;
    if (beta >= 0 && gamma >= 0 && beta + gamma <= nn) {
      best.squared = (h * h) / nn;
      best.t = t;
      return;
    }
  }
  lowerToEdge(best, dx, dy, dz, ux, uy, uz, rx, ry, rz);
  lowerToEdge(best, dx, dy, dz, vx, vy, vz, rx, ry, rz);
  lowerToEdge(best, dx, dy, dz, vx - ux, vy - uy, vz - uz, rx - ux, ry - uy, rz - uz);
}

/**
 * Lowers `best` to the squared distance of the segment d and the edge e, whose start lies r before that of the segment.
 * Method: Ericson, Real-Time Collision Detection (2005), section 5.1.9, closest points of two segments (from memory).
 */
function lowerToEdge(
  best: SegmentBest,
  dx: number,
  dy: number,
  dz: number,
  ex: number,
  ey: number,
  ez: number,
  rx: number,
  ry: number,
  rz: number,
): void {
  const a = dx * dx + dy * dy + dz * dz;
  const e = ex * ex + ey * ey + ez * ez;
  const f = ex * rx + ey * ry + ez * rz;
  const c = dx * rx + dy * ry + dz * rz;
  const b = dx * ex + dy * ey + dz * ez;
  const denominator = a * e - b * b;
  let s = denominator > 1e-14 * a * e ? unitPart((b * f - c * e) / denominator) : 0;
  let t = e > 0 ? (b * s + f) / e : 0;
  if (t < 0 || t > 1 || e === 0) {
    t = t > 1 ? 1 : 0;
    s = a > 0 ? unitPart((b * t - c) / a) : 0;
  }
  const x = rx + dx * s - ex * t;
  const y = ry + dy * s - ey * t;
  const z = rz + dz * s - ez * t;
  const squared = x * x + y * y + z * z;
  if (squared < best.squared) {
    best.squared = squared;
    best.t = s;
  }
}

const unitPart = (x: number): number => (x < 0 ? 0 : x > 1 ? 1 : x);

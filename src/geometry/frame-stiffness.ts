import { cross, distance, perpendicularTo, sub, unit, type Vec3 } from './vec3.js';

/** A straight round bar between two nodes of a frame, rigidly joined at both. */
export interface FrameBar {
  /** Numbers of the nodes. */
  readonly from: number;
  readonly to: number;
  /** mm. */
  readonly radius: number;
}

/** Rigidly joined bars in space; nodes that are held cannot move or turn. */
export interface BarFrame {
  readonly nodes: readonly Vec3[];
  readonly held: readonly number[];
  readonly bars: readonly FrameBar[];
}

/** An elastic material, N/mm2 and Poisson's ratio. */
export interface Elastic {
  readonly modulus: number;
  readonly poisson: number;
}

/**
 * The most one node moves, mm, under a force of `load` N there, whichever way it pulls. The direct stiffness method: for every
 * bar the stiffness matrix of a beam in space that stretches, twists and bends (Euler and Bernoulli; in any textbook of matrix
 * structural analysis, such as Przemieniecki, Theory of Matrix Structural Analysis, chapter 5), summed over the nodes and solved
 * for a unit force along x, y and z. Throws RangeError when the frame is not held.
 */
export function mostDeflection(frame: BarFrame, node: number, load: number, material: Elastic): number {
  const { nodes, held, bars } = frame;
  const free = nodes.map((_, i) => i).filter((i) => !held.includes(i));
  const size = 6 * free.length;
  const k = Array.from({ length: size }, () => new Float64Array(size));
  for (const bar of bars) {
    const own = barStiffness(nodes[bar.from]!, nodes[bar.to]!, bar.radius, material);
    const places = [bar.from, bar.to].map((n) => free.indexOf(n));
    for (let i = 0; i < 12; i++) {
      for (let j = 0; j < 12; j++) {
        const [a, b] = [places[Math.floor(i / 6)]!, places[Math.floor(j / 6)]!];
        if (a >= 0 && b >= 0) k[6 * a + (i % 6)]![6 * b + (j % 6)]! += own[i]![j]!;
      }
    }
  }
  const at = 6 * free.indexOf(node);
  const compliance = solved(k, [at, at + 1, at + 2]).map((column) => [column[at]!, column[at + 1]!, column[at + 2]!]);
  return load * largestEigenvalue(compliance);
}

/** Stiffness of one bar in world axes: twelve rows for the moves and turns of both ends. */
function barStiffness(p: Vec3, q: Vec3, radius: number, { modulus, poisson }: Elastic): number[][] {
  const l = distance(p, q);
  const area = Math.PI * radius * radius;
  const bend = (modulus * Math.PI * radius ** 4) / 4;
  const [axial, twist] = [(modulus * area) / l, ((modulus / (2 * (1 + poisson))) * Math.PI * radius ** 4) / 2 / l];
  const [k3, k2, k1, k0] = [(12 * bend) / l ** 3, (6 * bend) / l ** 2, (4 * bend) / l, (2 * bend) / l];
  const own = Array.from({ length: 12 }, () => new Array<number>(12).fill(0));
  const set = (i: number, j: number, v: number): void => {
    own[i]![j] = v;
    own[j]![i] = v;
  };
  for (const [i, v] of [
    [0, axial],
    [3, twist],
  ] as const) {
    set(i, i, v);
    set(i + 6, i + 6, v);
    set(i, i + 6, -v);
  }
  // bending in the plane of move 1 and turn 5, and of move 2 and turn 4, whose turn runs the other way
  for (const [move, turn, s] of [
    [1, 5, 1],
    [2, 4, -1],
  ] as const) {
    set(move, move, k3);
    set(move + 6, move + 6, k3);
    set(move, move + 6, -k3);
    set(move, turn, s * k2);
    set(move, turn + 6, s * k2);
    set(move + 6, turn, -s * k2);
    set(move + 6, turn + 6, -s * k2);
    set(turn, turn, k1);
    set(turn + 6, turn + 6, k1);
    set(turn, turn + 6, k0);
  }
  return turned(own, p, q);
}

/** From the bar's axes to the world's: every block of three rows and columns alike. */
function turned(own: readonly number[][], p: Vec3, q: Vec3): number[][] {
  const x = unit(sub(q, p));
  const y = perpendicularTo(x);
  const axes = [x, y, cross(x, y)];
  const part = (i: number) => 3 * Math.floor(i / 3);
  const half = own.map((row) =>
    row.map((_, j) => axes.reduce((sum, axis, b) => sum + row[part(j) + b]! * axis[j % 3]!, 0)),
  );
  return half.map((_, i) =>
    half[i]!.map((_v, j) => axes.reduce((sum, axis, a) => sum + axis[i % 3]! * half[part(i) + a]![j]!, 0)),
  );
}

/** Answers to unit loads at the given places, by elimination with the largest pivot. */
function solved(k: readonly Float64Array[], loads: readonly number[]): Float64Array[] {
  const n = k.length;
  const rows = k.map((row, i) => [...row, ...loads.map((at) => (at === i ? 1 : 0))]);
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(rows[r]![c]!) > Math.abs(rows[best]![c]!)) best = r;
    if (!(Math.abs(rows[best]![c]!) > 1e-9)) throw new RangeError('the frame is not held: it moves without a force');
    [rows[c], rows[best]] = [rows[best]!, rows[c]!];
    for (let r = 0; r < n; r++) {
      const by = r === c ? 0 : rows[r]![c]! / rows[c]![c]!;
      if (by !== 0) for (let j = c; j < n + loads.length; j++) rows[r]![j]! -= by * rows[c]![j]!;
    }
  }
  return loads.map((_, l) => Float64Array.from(rows, (row, i) => row[n + l]! / row[i]!));
}

/** Of a symmetric matrix without negative eigenvalues, by repeated multiplication from the worst axis. */
function largestEigenvalue(m: readonly (readonly number[])[]): number {
  const worst = [0, 1, 2].reduce((a, b) => (m[b]![b]! > m[a]![a]! ? b : a));
  let v: Vec3 = unit([m[0]![worst]!, m[1]![worst]!, m[2]![worst]!]);
  let value = 0;
  for (let i = 0; i < 100; i++) {
    const w = m.map((row) => row[0]! * v[0] + row[1]! * v[1] + row[2]! * v[2]) as unknown as Vec3;
    value = Math.hypot(...w);
    v = unit(w);
  }
  return value;
}

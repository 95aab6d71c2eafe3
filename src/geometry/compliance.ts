import { add, cross, distance, dot, lerp, scale, sub, unit, type Vec3 } from './vec3.js';

/** An elastic material, N/mm2 and Poisson's ratio. */
export interface Elastic {
  readonly modulus: number;
  readonly poisson: number;
}

/** How a bar's section resists: to pull, mm2; to bending and to twist, mm4. */
export interface BarSection {
  readonly area: number;
  readonly bend: number;
  readonly twist: number;
}

/** A straight bar that ends rigidly joined in what it stands on. */
export interface Bar {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly section: BarSection;
}

/**
 * How what is held gives way: three moves, mm, and three turns, rad, for a unit of each force, N, and moment, N mm, at one point.
 * Rows and columns in that order, world axes; symmetric.
 */
export type Compliance = readonly (readonly number[])[];

/** A compliance and the point it is at. */
export interface Base {
  readonly at: Vec3;
  readonly compliance: Compliance;
}

/**
 * Section of a round bar whose skin, `skin` mm thick, is full and whose core counts by the share `core` of that: areas and second
 * moments of circles, as in any textbook of strength of materials.
 */
export function roundSection(radius: number, skin: number = radius, core: number = 1): BarSection {
  const inner = Math.max(0, radius - skin);
  const bend = (Math.PI / 4) * ((radius ** 2) ** 2 - (1 - core) * (inner ** 2) ** 2);
  return { area: Math.PI * (radius ** 2 - (1 - core) * inner ** 2), bend, twist: 2 * bend };
}

/**
 * Compliance at a point rigidly joined to the first of bars in a row, the last of which ends in `base`, or is held when there is
 * none. Mohr's integral over every bar, which Simpson's rule gives exactly, for its integrand is of second degree: bending, twist and pull (Timoshenko, Strength of
 * Materials, part I: strain energy; shear left out, as for slender bars).
 */
export function chainCompliance(
  at: Vec3,
  bars: readonly Bar[],
  { modulus, poisson }: Elastic,
  base: Base | null = null,
): Compliance {
  const shear = modulus / (2 * (1 + poisson));
  return UNIT_LOADS.map(([force, moment]) => {
    let [move, turn]: [Vec3, Vec3] = [NOUGHT, NOUGHT];
    for (const { from, to, section } of bars) {
      const length = distance(from, to);
      if (length === 0) continue;
      const x = unit(sub(to, from));
      for (const [share, weight] of SIMPSON) {
        const arm = sub(at, lerp(from, to, share));
        const m = add(moment, cross(arm, force));
        const along = scale(x, dot(m, x));
        const bent = scale(sub(m, along), 1 / (modulus * section.bend));
        const turned = scale(add(bent, scale(along, 1 / (shear * section.twist))), weight * length);
        const stretched = scale(x, (weight * length * dot(force, x)) / (modulus * section.area));
        turn = add(turn, turned);
        move = add(move, add(cross(turned, arm), stretched));
      }
    }
    if (base) {
      const arm = sub(at, base.at);
      const load = [...force, ...add(moment, cross(arm, force))];
      const gives = base.compliance.map((row) => row.reduce((sum, c, i) => sum + c * load[i]!, 0));
      const turned: Vec3 = [gives[3]!, gives[4]!, gives[5]!];
      turn = add(turn, turned);
      move = add(move, add([gives[0]!, gives[1]!, gives[2]!], cross(turned, arm)));
    }
    return [...move, ...turn];
  });
}

const NOUGHT: Vec3 = [0, 0, 0];
const AXES: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
];
const UNIT_LOADS = [...AXES.map((a) => [a, NOUGHT] as const), ...AXES.map((a) => [NOUGHT, a] as const)];

/** Places along a bar and their weights. */
const SIMPSON = [
  [0, 1 / 6],
  [0.5, 4 / 6],
  [1, 1 / 6],
] as const;

/** How something resists, the inverse of how it gives way, at the same point. */
export type Stiffness = Compliance;

/** What several supports of one body resist together, all given at the same point. */
export const together = (supports: readonly Stiffness[]): Stiffness =>
  supports.reduce((sum, k) => sum.map((row, i) => row.map((v, j) => v + k[i]![j]!)));

/** The most a force of `load` N at the point moves it, mm, whichever way it pulls. */
export const mostGive = (compliance: Compliance, load: number): number => load * largestEigen(compliance).value;

/** How far a force moves the point along one of the three ways that it moves along and no other: mm, and a unit vector. */
export interface PrincipalGive {
  readonly give: number;
  readonly direction: Vec3;
}

/**
 * The three ways square to each other along which a force of `load` N moves the point straight, the softest first. Stop it along one of
 * them and the next is the most it gives: none moves the point along another.
 */
export function principalGives(compliance: Compliance, load: number): readonly PrincipalGive[] {
  let block = [0, 1, 2].map((r) => [0, 1, 2].map((c) => compliance[r]![c]!));
  return [0, 1, 2].map(() => {
    const { value, vector } = largestEigen(block);
    block = block.map((row, r) => row.map((m, c) => m - value * vector[r]! * vector[c]!));
    return { give: load * Math.max(0, value), direction: vector };
  });
}

/** Stiffness of a compliance and the other way about. Throws RangeError when there is none: something moves without a force, or not at all. */
export function inverse(m: readonly (readonly number[])[]): number[][] {
  const n = m.length;
  // lengths and angles differ in size by thousands
  const size = m.map((row, i) => 1 / Math.sqrt(Math.abs(row[i]!) || 1));
  const rows = m.map((row, i) => [
    ...row.map((v, j) => v * size[i]! * size[j]!),
    ...row.map((_, j) => (i === j ? 1 : 0)),
  ]);
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(rows[r]![c]!) > Math.abs(rows[best]![c]!)) best = r;
    if (!(Math.abs(rows[best]![c]!) > 1e-13)) throw new RangeError('nothing holds it: it moves without a force');
    [rows[c], rows[best]] = [rows[best]!, rows[c]!];
    const pivot = rows[c]!;
    const by = 1 / pivot[c]!;
    for (let j = c; j < 2 * n; j++) pivot[j]! *= by;
    for (let r = 0; r < n; r++) {
      const row = rows[r]!;
      const f = row[c]!;
      if (r !== c && f !== 0) for (let j = c; j < 2 * n; j++) row[j]! -= f * pivot[j]!;
    }
  }
  return rows.map((row, i) => row.slice(n).map((v, j) => v * size[i]! * size[j]!));
}

/** Of the block of moves and forces, which is symmetric without negative eigenvalues, by repeated multiplication from its worst axis. */
function largestEigen(m: Compliance): { readonly value: number; readonly vector: Vec3 } {
  const worst = [0, 1, 2].reduce((a, b) => (m[b]![b]! > m[a]![a]! ? b : a));
  let v: Vec3 = unit([m[0]![worst]!, m[1]![worst]!, m[2]![worst]!]);
  let value = 0;
  for (let i = 0; i < 100; i++) {
    const w: Vec3 = [0, 1, 2].map((r) => m[r]![0]! * v[0] + m[r]![1]! * v[1] + m[r]![2]! * v[2]) as unknown as Vec3;
    const next = Math.hypot(...w);
    v = scale(w, 1 / next);
    if (Math.abs(next - value) < 1e-9 * next) return { value: next, vector: v };
    value = next;
  }
  return { value, vector: v };
}

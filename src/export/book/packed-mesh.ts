import type { Mesh } from '../../geometry/mesh/mesh.js';
import type { SceneMesh } from './scene-data.js';

/**
 * Text form of a mesh, base64 of bytes: for every corner of every triangle a whole number, 0 for a point not met before and else how
 * many points back it was first met; after a 0 three signed whole numbers, the steps from the corner before to the new point. Whole
 * numbers take 7 bits a byte, lowest first, the top bit set while more follow; signed ones are doubled, less one when negative.
 * Nothing is compressed by a library, so that the same mesh gives the same text everywhere.
 */
export function packMesh(mesh: Mesh, step: number, error: number): SceneMesh {
  const grid = onGrid(mesh, step);
  const bytes: number[] = [];
  const met = new Map<number, number>();
  let before = [0, 0, 0];
  for (const i of walked(grid.triangles)) {
    const at = grid.steps.slice(3 * i, 3 * i + 3);
    const first = met.get(i);
    if (first === undefined) {
      met.set(i, met.size);
      writeWhole(bytes, 0);
      for (let k = 0; k < 3; k++) writeSigned(bytes, at[k]! - before[k]!);
    } else writeWhole(bytes, met.size - first);
    before = at;
  }
  const [x, y, z] = grid.origin as [number, number, number];
  return {
    origin: [x, y, z],
    step,
    error,
    points: met.size,
    triangles: grid.triangles.length,
    packed: base64(bytes),
  };
}

/** The mesh again. Throws RangeError when the text does not hold what it says. */
export function unpackMesh({ origin, step, points, triangles, packed }: SceneMesh): Mesh {
  const bytes = Uint8Array.from(atob(packed), (c) => c.charCodeAt(0));
  const positions = new Float64Array(3 * points);
  const corners = new Uint32Array(3 * triangles);
  let at = 0;
  let count = 0;
  const readWhole = (): number => {
    let value = 0;
    for (let scale = 1; ; scale *= 128) {
      const byte = bytes[at++];
      if (byte === undefined) throw new RangeError('a mesh ends too soon');
      value += (byte & 127) * scale;
      if (byte < 128) return value;
    }
  };
  const readSigned = (): number => {
    const value = readWhole();
    return value % 2 === 0 ? value / 2 : -(value + 1) / 2;
  };
  const steps = new Int32Array(3 * points);
  let before = 0;
  for (let k = 0; k < corners.length; k++) {
    const back = readWhole();
    const i = back === 0 ? count++ : count - back;
    if (i < 0 || i >= points) throw new RangeError('a mesh names a point that is not there');
    for (let n = 0; back === 0 && n < 3; n++) {
      steps[3 * i + n] = (i === 0 ? 0 : steps[3 * before + n]!) + readSigned();
      positions[3 * i + n] = origin[n]! + steps[3 * i + n]! * step;
    }
    corners[k] = i;
    before = i;
  }
  if (count !== points || at !== bytes.length) throw new RangeError('a mesh holds other than it says');
  return { positions, triangles: corners };
}

interface Grid {
  readonly origin: readonly number[];
  readonly steps: number[];
  readonly triangles: readonly (readonly number[])[];
}

/** Points moved to the grid, those that fall together made one, triangles that collapse left out. */
function onGrid({ positions, triangles }: Mesh, step: number): Grid {
  const origin = [0, 1, 2].map((k) => {
    let least = Number.POSITIVE_INFINITY;
    for (let i = k; i < positions.length; i += 3) least = Math.min(least, positions[i]!);
    return Math.round(least / step) * step;
  });
  const steps: number[] = [];
  const numbers = new Map<string, number>();
  const pointOf = Array.from({ length: positions.length / 3 }, (_, i) => {
    const p = origin.map((o, k) => Math.round((positions[3 * i + k]! - o) / step));
    const key = p.join(' ');
    const known = numbers.get(key);
    if (known !== undefined) return known;
    numbers.set(key, numbers.size);
    steps.push(...p);
    return numbers.size - 1;
  });
  const kept: number[][] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [pointOf[triangles[t]!]!, pointOf[triangles[t + 1]!]!, pointOf[triangles[t + 2]!]!];
    if (a !== b && b !== c && c !== a) kept.push([a, b, c]);
  }
  return { origin: origin.map((v) => v + 0), steps, triangles: kept };
}

/** Corners of all triangles, each next to the one before as far as that goes: points met lately take the least room. */
function* walked(triangles: Grid['triangles']): Generator<number> {
  const across = new Map<string, number[]>();
  const sidesOf = (t: number): string[] =>
    triangles[t]!.map((a, k) => {
      const b = triangles[t]![(k + 1) % 3]!;
      return a < b ? `${a} ${b}` : `${b} ${a}`;
    });
  for (const t of triangles.keys()) {
    for (const side of sidesOf(t)) {
      const both = across.get(side);
      if (both) both.push(t);
      else across.set(side, [t]);
    }
  }
  const done = new Set<number>();
  for (const seed of triangles.keys()) {
    const waiting = [seed];
    while (waiting.length > 0) {
      const t = waiting.pop()!;
      if (done.has(t)) continue;
      done.add(t);
      yield* triangles[t]!;
      for (const side of sidesOf(t)) for (const next of across.get(side)!) if (!done.has(next)) waiting.push(next);
    }
  }
}

function writeWhole(bytes: number[], value: number): void {
  let left = value;
  for (; left >= 128; left = Math.floor(left / 128)) bytes.push((left % 128) + 128);
  bytes.push(left);
}

const writeSigned = (bytes: number[], value: number): void => writeWhole(bytes, value < 0 ? -2 * value - 1 : 2 * value);

/** In slices: a call takes so many arguments and no more. */
function base64(bytes: readonly number[]): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 4096) text += String.fromCharCode(...bytes.slice(i, i + 4096));
  return btoa(text);
}

import type { Mesh } from './mesh.js';
import { readStlText } from './stl-text.js';

/** Length of a binary STL's header, of its triangle count and of one triangle, bytes: a file has 84 + 50 n. */
const HEADER = 80;
const COUNT = 4;
const TRIANGLE = 50;

/**
 * Triangles of an STL, binary or text, three points each in the file's own unit, nothing welded; normals are not looked at, and
 * triangles two of whose corners are one point are left out. A file whose size fits its triangle count is binary, whatever its
 * header says. Throws RangeError with the reason for what is neither, is empty, has more than `most` triangles or a corner that is
 * no finite number.
 */
export function readStl(bytes: Uint8Array, most: number): Mesh {
  const count = binaryCount(bytes);
  if (count === null && !startsAsText(bytes)) throw new RangeError(`this is no STL: ${sizeWords(bytes)}`);
  if (count !== null && count > most) throw tooMany(most);
  const positions = count === null ? readStlText(bytes, most) : meshFromStl(bytes).positions;
  const kept = solidTriangles(positions);
  if (kept.length === 0) throw new RangeError('it has no triangles');
  return { positions: kept, triangles: inOrder(kept.length / 3) };
}

/**
 * Triangles of a binary STL, three points each in the file's own unit, nothing welded. Throws RangeError when the size is not 84 + 50 n.
 */
export function meshFromStl(bytes: Uint8Array): Mesh {
  const n = binaryCount(bytes);
  if (n === null) throw new RangeError(sizeWords(bytes));
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const positions = new Float64Array(9 * n);
  for (let t = 0; t < n; t++) {
    const corners = HEADER + COUNT + TRIANGLE * t + 12;
    for (let k = 0; k < 9; k++) positions[9 * t + k] = view.getFloat32(corners + 4 * k, true);
  }
  return { positions, triangles: inOrder(3 * n) };
}

/** Number of triangles of a binary STL; null when the size does not fit it. */
function binaryCount(bytes: Uint8Array): number | null {
  const n = countIn(bytes);
  return bytes.length === HEADER + COUNT + TRIANGLE * n ? n : null;
}

function countIn(bytes: Uint8Array): number {
  if (bytes.length < HEADER + COUNT) return -1;
  return new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength).getUint32(HEADER, true);
}

function sizeWords(bytes: Uint8Array): string {
  const n = countIn(bytes);
  if (n < 0) return `a binary STL has ${HEADER + COUNT} bytes, not ${bytes.length}, or more`;
  return `a binary STL of ${n} triangles has ${HEADER + COUNT + TRIANGLE * n} bytes, not ${bytes.length}`;
}

/** True when the first word is `solid`, after a byte order mark and white space. */
function startsAsText(bytes: Uint8Array): boolean {
  const start = new TextDecoder('latin1').decode(bytes.subarray(0, 200));
  return /^(?:\u00EF\u00BB\u00BF)?\s*solid(?:\s|$)/i.test(start);
}

const tooMany = (most: number): RangeError => new RangeError(`it has more than ${most} triangles; thin it out`);

/** The corners of all triangles but those with two corners in one point. Throws RangeError for a corner that is not finite. */
function solidTriangles(positions: Float64Array): Float64Array {
  let length = 0;
  for (let t = 0; t < positions.length; t += 9) {
    for (let k = t; k < t + 9; k++) {
      if (!Number.isFinite(positions[k])) throw new RangeError(`triangle ${t / 9 + 1} has a corner that is no number`);
    }
    if (same(positions, t, t + 3) || same(positions, t + 3, t + 6) || same(positions, t + 6, t)) continue;
    if (length < t) positions.copyWithin(length, t, t + 9);
    length += 9;
  }
  return length < positions.length ? positions.slice(0, length) : positions;
}

const same = (p: Float64Array, a: number, b: number): boolean =>
  p[a] === p[b] && p[a + 1] === p[b + 1] && p[a + 2] === p[b + 2];

/** 0, 1, 2, ...: the corners of triangles of which nothing is welded. */
function inOrder(count: number): Uint32Array {
  const numbers = new Uint32Array(count);
  for (let i = 0; i < count; i++) numbers[i] = i;
  return numbers;
}

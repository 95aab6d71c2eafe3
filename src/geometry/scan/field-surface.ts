import type { Mesh } from '../mesh/mesh.js';
import { type FieldDraft, offer } from './field-draft.js';

/** Beyond this distance, mm, no gap matters to a search, and surfaces need not be followed. */
export const FAR = 60;

/** Offers the grid points all over the surface, at most half a cell apart wherever it comes within `FAR` of the grid. */
export function followSurface(draft: FieldDraft, { positions, triangles }: Mesh): void {
  const offered = new Uint8Array(positions.length / 3);
  const corner = (v: number): void => {
    if (offered[v]) return;
    offered[v] = 1;
    offer(draft, positions[v * 3]!, positions[v * 3 + 1]!, positions[v * 3 + 2]!);
  };
  const longest = (draft.cell / 2) ** 2;
  const t = new Float64Array(9);
  for (let i = 0; i < triangles.length; i += 3) {
    for (let k = 0; k < 3; k++) {
      const v = triangles[i + k]!;
      corner(v);
      t[k * 3] = positions[v * 3]!;
      t[k * 3 + 1] = positions[v * 3 + 1]!;
      t[k * 3 + 2] = positions[v * 3 + 2]!;
    }
    halve(draft, longest, t[0]!, t[1]!, t[2]!, t[3]!, t[4]!, t[5]!, t[6]!, t[7]!, t[8]!);
  }
}

/** Halves a triangle across its longest side until no side is longer than the root of `longest`, offering each middle. */
function halve(
  draft: FieldDraft,
  longest: number,
  ax: number,
  ay: number,
  az: number,
  bx: number,
  by: number,
  bz: number,
  cx: number,
  cy: number,
  cz: number,
): void {
  const ab = (bx - ax) * (bx - ax) + (by - ay) * (by - ay) + (bz - az) * (bz - az);
  const bc = (cx - bx) * (cx - bx) + (cy - by) * (cy - by) + (cz - bz) * (cz - bz);
  const ca = (ax - cx) * (ax - cx) + (ay - cy) * (ay - cy) + (az - cz) * (az - cz);
  if (ab <= longest && bc <= longest && ca <= longest) return;
  if (bc > ab && bc >= ca) {
    halve(draft, longest, bx, by, bz, cx, cy, cz, ax, ay, az);
    return;
  }
  if (ca > ab && ca > bc) {
    halve(draft, longest, cx, cy, cz, ax, ay, az, bx, by, bz);
    return;
  }
  if (farAlong(draft, 0, ax, bx, cx) || farAlong(draft, 1, ay, by, cy) || farAlong(draft, 2, az, bz, cz)) return;
  const mx = (ax + bx) / 2;
  const my = (ay + by) / 2;
  const mz = (az + bz) / 2;
  offer(draft, mx, my, mz);
  halve(draft, longest, ax, ay, az, mx, my, mz, cx, cy, cz);
  halve(draft, longest, mx, my, mz, bx, by, bz, cx, cy, cz);
}

function farAlong({ origin, cell, size }: FieldDraft, axis: 0 | 1 | 2, a: number, b: number, c: number): boolean {
  const low = origin[axis] - FAR;
  const high = origin[axis] + (size[axis] - 1) * cell + FAR;
  return (a < low && b < low && c < low) || (a > high && b > high && c > high);
}

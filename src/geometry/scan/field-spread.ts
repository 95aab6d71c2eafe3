import type { FieldDraft } from './field-draft.js';

/** How often nearest points are handed on along all three axes: a third time changes next to nothing. */
const ROUNDS = 2;

/** Gives every node the nearest point that its neighbours know of. */
export function spreadNearest(draft: FieldDraft): void {
  for (let round = 0; round < ROUNDS; round++) for (const axis of [0, 1, 2] as const) spreadAlong(draft, axis);
}

/**
 * Hands nearest points on from node to node along one axis, there and back.
 * Method: Danielsson, Euclidean distance mapping (1980), in space and with points that need not lie on nodes (from memory).
 */
function spreadAlong(draft: FieldDraft, axis: 0 | 1 | 2): void {
  const { size } = draft;
  const step = axis === 0 ? 1 : axis === 1 ? size[0] : size[0] * size[1];
  for (const sense of [1, -1] as const) {
    for (let k = axis === 2 ? 1 : 0; k < size[2]; k++) {
      for (let j = axis === 1 ? 1 : 0; j < size[1]; j++) {
        const across = sense > 0 || axis === 0;
        spreadRow(
          draft,
          across || axis === 2 ? j : size[1] - 1 - j,
          across || axis === 1 ? k : size[2] - 1 - k,
          step,
          sense,
        );
      }
    }
  }
}

function spreadRow(draft: FieldDraft, j: number, k: number, step: number, sense: 1 | -1): void {
  const { origin, cell, size, points, nearest, squared } = draft;
  const y = origin[1] + j * cell;
  const z = origin[2] + k * cell;
  const base = (j + k * size[1]) * size[0];
  const within = step === 1 ? 1 : 0;
  for (let n = within; n < size[0]; n++) {
    const i = sense > 0 ? n : size[0] - 1 - n;
    const node = base + i;
    const p = nearest[node - sense * step]!;
    if (p < 0 || p === nearest[node]) continue;
    const dx = origin[0] + i * cell - points[p * 3]!;
    const dy = y - points[p * 3 + 1]!;
    const dz = z - points[p * 3 + 2]!;
    const d = dx * dx + dy * dy + dz * dz;
    if (d >= squared[node]!) continue;
    squared[node] = d;
    nearest[node] = p;
  }
}

import { along, dot, type Vec3 } from '../../geometry/vec3.js';

/** A straight whose length may change: its unit direction and how much shorter it may become, mm. */
export interface Movable {
  readonly direction: Vec3;
  readonly room: number;
}

/** What moving tube to and fro is worth against a shift of the end: it breaks ties and keeps changes small where straights are alike. */
const SMALLNESS = 1e-4;

/** Where the end stands off, mm: what it was off before and the changes of the straights along their directions. */
export const shiftOf = (straights: readonly Movable[], changes: readonly number[], before: Vec3): Vec3 =>
  straights.reduce((sum, s, i) => along(sum, s.direction, changes[i]!), before);

/**
 * Changes of the straights of a tube, mm, that together make it `total` mm longer (shorter when negative) and move its end least from where it
 * should be; `before` is how far it is off already. Least squares with the sum of changes held (Lagrange); straights that would become
 * too short are held at their least, one by one, the worst first. Null when they have no room for it.
 */
export function leastShift(straights: readonly Movable[], total: number, before: Vec3 = [0, 0, 0]): number[] | null {
  const room = straights.reduce((sum, s) => sum + s.room, 0);
  if (straights.length === 0 || -total > room + 1e-9) return null;
  const held = new Map<number, number>();
  for (;;) {
    const free = straights.map((_, i) => i).filter((i) => !held.has(i));
    const fixed = [...held].reduce((sum, [, x]) => sum + x, 0);
    const offset = [...held].reduce<Vec3>((v, [i, x]) => along(v, straights[i]!.direction, x), before);
    const found = solveFree(
      free.map((i) => straights[i]!.direction),
      total - fixed,
      offset,
    );
    let worst = -1;
    free.forEach((i, k) => {
      const over = -straights[i]!.room - found[k]!;
      if (over > 1e-9 && (worst < 0 || over > -straights[free[worst]!]!.room - found[worst]!)) worst = k;
    });
    if (worst < 0) return straights.map((_, i) => held.get(i) ?? found[free.indexOf(i)]!);
    held.set(free[worst]!, -straights[free[worst]!]!.room);
    if (held.size === straights.length) return straights.map((_, i) => held.get(i)!);
  }
}

/** Least squares without bounds: (U'U + small) x + multiplier = -U'offset, sum x = total. */
function solveFree(directions: readonly Vec3[], total: number, offset: Vec3): number[] {
  const n = directions.length;
  const rows = directions.map((u, i) => [
    ...directions.map((v, j) => dot(u, v) + (i === j ? SMALLNESS : 0)),
    1,
    -dot(u, offset),
  ]);
  return solveLinear([...rows, [...directions.map(() => 1), 0, total]]).slice(0, n);
}

/** Solves a square system given as rows with their right side, by elimination with the largest pivot. */
function solveLinear(system: readonly (readonly number[])[]): number[] {
  const rows = system.map((r) => [...r]);
  const n = rows.length;
  for (let c = 0; c < n; c++) {
    let pivot = c;
    for (let r = c + 1; r < n; r++) if (Math.abs(rows[r]![c]!) > Math.abs(rows[pivot]![c]!)) pivot = r;
    [rows[c], rows[pivot]] = [rows[pivot]!, rows[c]!];
    for (let r = c + 1; r < n; r++) {
      const k = rows[r]![c]! / rows[c]![c]!;
      for (let j = c; j <= n; j++) rows[r]![j] = rows[r]![j]! - k * rows[c]![j]!;
    }
  }
  const x: number[] = Array.from({ length: n }, () => 0);
  for (let r = n - 1; r >= 0; r--) {
    const known = x.reduce((sum, v, j) => (j > r ? sum + rows[r]![j]! * v : sum), 0);
    x[r] = (rows[r]![n]! - known) / rows[r]![r]!;
  }
  return x;
}

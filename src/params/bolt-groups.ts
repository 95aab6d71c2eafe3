import { distance2, dot2, length2, sub2, type Vec2 } from '../geometry/vec2.js';

/** A bolt about as near to two groups, within this part of the distance, goes to the one that has fewer. */
const AS_NEAR = 0.1;

/** The ports of one flange and the bolts that hold it. */
export interface BoltGroup {
  readonly cylinders: readonly number[];
  /** Places in the head's list of bolts, rising. */
  readonly bolts: readonly number[];
}

/**
 * Which bolts hold which group of cylinders: each bolt the group whose nearest port it is nearest to. A bolt about midway between
 * groups holds the one with fewer bolts, so that two bolts between neighbours are shared out one each; of equals the one whose own
 * bolts lie most across from it.
 */
export function boltGroups(
  groups: readonly (readonly number[])[],
  ports: readonly { readonly cylinder: number; readonly at: Vec2 }[],
  bolts: readonly { readonly at: Vec2 }[],
): readonly BoltGroup[] {
  const held: number[][] = groups.map(() => []);
  const choices = bolts.map((bolt, index) => {
    const reach = groups.map((g) =>
      Math.min(...ports.filter((p) => g.includes(p.cylinder)).map((p) => distance2(p.at, bolt.at))),
    );
    const near = Math.min(...reach) * (1 + AS_NEAR);
    return { index, at: bolt.at, near: reach.flatMap((r, g) => (r <= near ? [g] : [])) };
  });
  const sure = choices.filter((c) => c.near.length === 1);
  const open = choices
    .filter((c) => c.near.length !== 1)
    .sort((a, b) => a.at[0] - b.at[0] || b.at[1] - a.at[1] || a.index - b.index);
  const before = (g: number, than: number, bolt: number): boolean => {
    const more = held[g]!.length - held[than]!.length;
    return more !== 0 ? more < 0 : across(g, bolt) < across(than, bolt) - 1e-9;
  };
  /** Cosine between the ways from a group's middle to a bolt and to those it has: -1 straight across. */
  const across = (g: number, bolt: number): number => {
    const middle = mean(ports.filter((p) => groups[g]!.includes(p.cylinder)));
    const [to, has] = [sub2(bolts[bolt]!.at, middle), sub2(mean(held[g]!.map((b) => bolts[b]!)), middle)];
    const lengths = length2(to) * length2(has);
    return held[g]!.length > 0 && lengths > 0 ? dot2(to, has) / lengths : 0;
  };
  for (const { index, near } of [...sure, ...open]) {
    const best = near.reduce((a, b) => (before(b, a, index) ? b : a), near[0]!);
    held[best]?.push(index);
  }
  return groups.map((cylinders, g) => ({ cylinders, bolts: held[g]!.sort((a, b) => a - b) }));
}

const mean = (things: readonly { readonly at: Vec2 }[]): Vec2 => [
  things.reduce((sum, t) => sum + t.at[0], 0) / things.length,
  things.reduce((sum, t) => sum + t.at[1], 0) / things.length,
];

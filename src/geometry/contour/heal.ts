import { add2, distance2, scale2, type Vec2 } from '../vec2.js';
import { placeWords, shortNumber } from './contour.js';
import type { Link, Nodes } from './links.js';
import { pointGrid } from './point-grid.js';

/** More loose ends than this are no contours. */
const MOST_LOOSE = 2000;

/** A gap that was closed. */
export interface Healed {
  readonly at: Vec2;
  /** mm. */
  readonly gap: number;
  /** The two pieces it lay between. */
  readonly between: readonly [string, string];
}

/** Links that meet end to end, the moved places of their nodes, and the gaps closed for it. */
export interface HealedNodes {
  readonly joined: readonly Link[];
  readonly places: readonly Vec2[];
  readonly healed: readonly Healed[];
}

/**
 * Loose ends within `heal` mm of each other made one node, nearest first. Throws RangeError naming the piece and place of an end
 * that stays loose.
 */
export function healedNodes({ places, links }: Nodes, heal: number): HealedNodes {
  const count = places.map(() => 0);
  const owner = places.map((): Link | null => null);
  for (const link of links) {
    for (const node of link.nodes) {
      count[node]!++;
      owner[node] = link;
    }
  }
  const loose = count.flatMap((n, i) => (n === 1 ? [i] : []));
  if (loose.length > MOST_LOOSE) throw new RangeError(`${loose.length} ends are loose: these are no closed contours`);
  const pairs = loosePairs(loose, places, heal).filter(({ a, b }) => owner[a] !== owner[b] || isLong(owner[a]!, heal));
  const moved = [...places];
  const into = places.map((_, i) => i);
  const healed: Healed[] = [];
  const done = new Set<number>();
  for (const { a, b, gap } of pairs) {
    if (done.has(a) || done.has(b)) continue;
    done.add(a).add(b);
    into[b] = a;
    moved[a] = scale2(add2(places[a]!, places[b]!), 0.5);
    healed.push({ at: moved[a]!, gap, between: [owner[a]!.piece.name, owner[b]!.piece.name] });
  }
  refuseLoose(
    loose.filter((n) => !done.has(n)),
    loose,
    places,
    owner,
    heal,
  );
  const joined = links.map((l) => ({ ...l, nodes: [into[l.nodes[0]]!, into[l.nodes[1]]!] as const }));
  return { joined, places: moved, healed };
}

/** A piece may close on itself only when it is no crumb. */
const isLong = ({ length }: Link, heal: number): boolean => length > 10 * heal;

function loosePairs(loose: readonly number[], places: readonly Vec2[], heal: number) {
  if (!(heal > 0)) return [];
  const grid = pointGrid(heal);
  const pairs: { readonly a: number; readonly b: number; readonly gap: number }[] = [];
  for (const b of loose) {
    for (const a of grid.near(places[b]!)) {
      const gap = distance2(places[a]!, places[b]!);
      if (gap <= heal) pairs.push({ a, b, gap });
    }
    grid.add(places[b]!, b);
  }
  return pairs.sort((p, q) => p.gap - q.gap || p.a - q.a || p.b - q.b);
}

function refuseLoose(
  left: readonly number[],
  loose: readonly number[],
  places: readonly Vec2[],
  owner: readonly (Link | null)[],
  heal: number,
): void {
  const first = left[0];
  if (first === undefined) return;
  const name = (n: number): string => owner[n]!.piece.name;
  const others = loose.filter((n) => n !== first).sort((a, b) => gapTo(a) - gapTo(b));
  function gapTo(n: number): number {
    return distance2(places[n]!, places[first!]!);
  }
  const near = others[0];
  const where = `${name(first)} ends loose at ${placeWords(places[first]!)}`;
  const more = left.length > 2 ? `; ${left.length} ends are loose in all` : '';
  if (near === undefined) throw new RangeError(`a contour does not close: ${where}, with no other loose end${more}`);
  throw new RangeError(
    `a contour does not close: ${where}, and the nearest loose end, of ${name(near)} at ${placeWords(places[near]!)}, is ${shortNumber(gapTo(near))} mm away${more}; close it in the drawing, or raise heal (${shortNumber(heal)} mm)`,
  );
}

import { bulgeOf, reverseSide, type Side, sideBetween } from '../outline/sides.js';
import type { Vec2 } from '../vec2.js';
import type { Contour, NamedSide, Piece } from './contour.js';
import { type Healed, healedNodes } from './heal.js';
import { type Link, lengthOf, nodesOf, ONE_POINT } from './links.js';
import { type Doubled, withoutTwinContours, withoutTwinLinks } from './twins.js';

/** More contours than this are no head. */
const MOST_CONTOURS = 1000;

/** Closed contours, in the order of the first piece of each, and what was mended on the way. */
export interface Chained {
  readonly contours: readonly Contour[];
  readonly healed: readonly Healed[];
  /** Names of pieces left out, since another lies on them. */
  readonly doubled: readonly Doubled[];
}

/**
 * Loose pieces joined end to end into closed contours. Ends within 0.002 mm are one; loose ends within `heal` mm are brought
 * together at their middle, nearest first. Throws RangeError naming pieces and places when an end stays loose or three pieces meet.
 */
export function chainContours(pieces: readonly Piece[], heal: number): Chained {
  const real = pieces
    .map((piece, order) => ({ piece, order, length: lengthOf(piece.sides) }))
    .filter(({ length }) => length > ONE_POINT);
  const closed = real
    .filter(({ piece }) => piece.closed)
    .map(({ piece, order }) => ({ order, contour: piece.sides, name: piece.name }));
  const { places, links } = nodesOf(real.filter(({ piece }) => !piece.closed));
  const single = withoutTwinLinks({ places, links });
  const { joined, places: met, healed } = healedNodes({ places, links: single.kept }, heal);
  const all = [...closed, ...loopsOf(joined, met)].sort((a, b) => a.order - b.order);
  if (all.length > MOST_CONTOURS) {
    throw new RangeError(`it has ${all.length} closed contours; a head has at most ${MOST_CONTOURS}`);
  }
  const contours = withoutTwinContours(all);
  return { contours: contours.kept, healed, doubled: [...single.doubled, ...contours.doubled] };
}

/** A closed contour by the place in the drawing and the name of its first piece. */
interface Ordered {
  readonly order: number;
  readonly contour: Contour;
  readonly name: string;
}

/** Every link begins and ends at a node with just one other: so they form loops. */
function loopsOf(links: readonly Link[], places: readonly Vec2[]): readonly Ordered[] {
  const at = places.map((): number[] => []);
  links.forEach((l, i) => {
    for (const node of l.nodes) at[node]!.push(i);
  });
  const used = new Set<number>();
  return links.flatMap((first, i): Ordered[] => {
    if (used.has(i)) return [];
    used.add(i);
    const contour = [...placed(first, false, places)];
    let node = first.nodes[1];
    while (node !== first.nodes[0]) {
      const next = at[node]!.find((n) => !used.has(n))!;
      used.add(next);
      const link = links[next]!;
      const back = link.nodes[0] !== node;
      contour.push(...placed(link, back, places));
      node = link.nodes[back ? 0 : 1];
    }
    return [{ order: first.order, contour, name: first.piece.name }];
  });
}

/** The sides of a piece, run backwards if need be, its ends moved to the places of its nodes. */
function placed({ piece, nodes }: Link, back: boolean, places: readonly Vec2[]): readonly NamedSide[] {
  const last = piece.sides.length - 1;
  const sides = piece.sides.map((s, i) => {
    const from = i === 0 ? places[nodes[0]]! : s.side.from;
    const to = i === last ? places[nodes[1]]! : s.side.to;
    return { ...s, side: withEnds(s.side, from, to) };
  });
  return back ? sides.map((s) => ({ ...s, side: reverseSide(s.side) })).reverse() : sides;
}

/** A side between moved ends: an arc keeps the angle it turns by. */
const withEnds = (side: Side, from: Vec2, to: Vec2): Side =>
  side.from === from && side.to === to ? side : sideBetween(from, to, bulgeOf(side));

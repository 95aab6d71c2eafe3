import { type Contour, type NamedSide, type Piece, placeWords, shortNumber } from './contour.js';
import { bulgeOf, pointAlong, reverseSide, type Side, sideBetween, sideLength } from './outline-sides.js';
import { pointGrid } from './point-grid.js';
import { add2, distance2, scale2, type Vec2 } from './vec2.js';

/** Ends this close, mm, are one point: coordinates are written with three decimals and more. */
const ONE_POINT = 0.002;

/** Pieces whose middle and length differ by less, mm, between the same ends are one drawn twice. */
const ONE_PIECE = 0.01;

/** More loose ends than this are no contours. */
const MOST_LOOSE = 2000;

/** More contours than this are no head. */
const MOST_CONTOURS = 1000;

/** A gap that was closed. */
export interface Healed {
  readonly at: Vec2;
  /** mm. */
  readonly gap: number;
  /** The two pieces it lay between. */
  readonly between: readonly [string, string];
}

/** Closed contours, in the order of the first piece of each, and what was mended on the way. */
export interface Chained {
  readonly contours: readonly Contour[];
  readonly healed: readonly Healed[];
  /** Names of pieces left out, since another lies on them. */
  readonly doubled: readonly { readonly name: string; readonly on: string }[];
}

interface Link {
  readonly piece: Piece;
  readonly order: number;
  /** Nodes of its first and last end. */
  readonly nodes: readonly [number, number];
}

/**
 * Loose pieces joined end to end into closed contours. Ends within 0.002 mm are one; loose ends within `heal` mm are brought
 * together at their middle, nearest first. Throws RangeError naming pieces and places when an end stays loose or three pieces meet.
 */
export function chainContours(pieces: readonly Piece[], heal: number): Chained {
  const doubled: { name: string; on: string }[] = [];
  const closed: Ordered[] = [];
  const open: Open[] = [];
  pieces.forEach((piece, order) => {
    const length = piece.sides.reduce((sum, s) => sum + sideLength(s.side), 0);
    if (length <= ONE_POINT) return;
    if (piece.closed) closed.push({ order, contour: piece.sides, name: piece.name });
    else open.push({ piece, order, length });
  });
  const nodes = nodesOf(open);
  const links = withoutTwins(nodes, doubled);
  const { joined, places, healed } = healedNodes(nodes, links, heal);
  const loops = loopsOf(joined, places);
  const all = withoutTwinContours(
    [...closed, ...loops].sort((a, b) => a.order - b.order),
    doubled,
  );
  return { contours: all, healed, doubled };
}

interface Open {
  readonly piece: Piece;
  readonly order: number;
  readonly length: number;
}

interface Ordered {
  readonly order: number;
  readonly contour: Contour;
  readonly name: string;
}

interface Nodes {
  readonly places: readonly Vec2[];
  readonly links: readonly (Link & { readonly length: number })[];
}

const firstEnd = (p: Piece): Vec2 => p.sides[0]!.side.from;
const lastEnd = (p: Piece): Vec2 => p.sides[p.sides.length - 1]!.side.to;

function nodesOf(open: readonly Open[]): Nodes {
  const grid = pointGrid(ONE_POINT);
  const places: Vec2[] = [];
  const nodeAt = (p: Vec2): number => {
    const found = grid.near(p).find((n) => distance2(places[n]!, p) <= ONE_POINT);
    if (found !== undefined) return found;
    grid.add(p, places.length);
    return places.push(p) - 1;
  };
  const links = open.map(({ piece, order, length }) => {
    const nodes = [nodeAt(firstEnd(piece)), nodeAt(lastEnd(piece))] as const;
    return { piece, order, length, nodes };
  });
  return { places, links };
}

/** Middle of a piece's sides, the same whichever way it runs. */
function middleOf(sides: readonly NamedSide[]): Vec2 {
  const sum = sides.reduce<Vec2>((m, s) => add2(m, pointAlong(s.side, 0.5)), [0, 0]);
  return scale2(sum, 1 / sides.length);
}

/** The links without those drawn twice. Throws RangeError where more than two are left at one node. */
function withoutTwins({ places, links }: Nodes, doubled: { name: string; on: string }[]): readonly Link[] {
  const at = places.map((): (Link & { length: number; middle: Vec2 })[] => []);
  const kept: Link[] = [];
  for (const link of links) {
    const [a, b] = link.nodes;
    const middle = middleOf(link.piece.sides);
    const twin = at[a]!.find(
      (l) =>
        l.nodes.includes(b) &&
        Math.abs(l.length - link.length) < ONE_PIECE &&
        distance2(l.middle, middle) < ONE_PIECE &&
        (a !== b || l.nodes[0] === l.nodes[1]),
    );
    if (twin !== undefined) {
      doubled.push({ name: link.piece.name, on: twin.piece.name });
      continue;
    }
    kept.push(link);
    for (const node of link.nodes) {
      at[node]!.push({ ...link, middle });
      if (at[node]!.length > 2) {
        const names = [...new Set(at[node]!.map((l) => l.piece.name))].join(', ');
        throw new RangeError(`contours meet at ${placeWords(places[node]!)}: ${names}; each end joins one other`);
      }
    }
  }
  return kept;
}

interface HealedNodes {
  readonly joined: readonly Link[];
  readonly places: readonly Vec2[];
  readonly healed: readonly Healed[];
}

/** Loose ends within reach of each other made one node, nearest first. */
function healedNodes({ places }: Nodes, links: readonly Link[], heal: number): HealedNodes {
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
const isLong = ({ piece }: Link, heal: number): boolean =>
  piece.sides.reduce((sum, s) => sum + sideLength(s.side), 0) > 10 * heal;

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

function withoutTwinContours(all: readonly Ordered[], doubled: { name: string; on: string }[]): readonly Contour[] {
  if (all.length > MOST_CONTOURS) {
    throw new RangeError(`it has ${all.length} closed contours; a head has at most ${MOST_CONTOURS}`);
  }
  const kept: { name: string; contour: Contour; length: number; middle: Vec2 }[] = [];
  for (const { name, contour } of all) {
    const length = contour.reduce((sum, s) => sum + sideLength(s.side), 0);
    const middle = weightedMiddle(contour, length);
    const twin = kept.find((k) => Math.abs(k.length - length) < ONE_PIECE && distance2(k.middle, middle) < ONE_PIECE);
    if (twin === undefined) kept.push({ name, contour, length, middle });
    else doubled.push({ name, on: twin.name });
  }
  return kept.map((k) => k.contour);
}

/** Middle of a contour's line by length: the same wherever it begins and however it is cut into sides. */
function weightedMiddle(contour: Contour, length: number): Vec2 {
  const sum = contour.reduce<Vec2>((m, { side }) => add2(m, scale2(arcMiddle(side), sideLength(side))), [0, 0]);
  return scale2(sum, 1 / length);
}

/** Middle of a side's line: of an arc r sin(a) / a from its centre, a half of its sweep. */
function arcMiddle(side: Side): Vec2 {
  const middle = pointAlong(side, 0.5);
  if (side.kind === 'line') return middle;
  const half = Math.abs(side.sweep) / 2;
  const k = Math.sin(half) / half;
  return [side.centre[0] + (middle[0] - side.centre[0]) * k, side.centre[1] + (middle[1] - side.centre[1]) * k];
}

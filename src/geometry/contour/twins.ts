import { pointAlong, type Side, sideLength } from '../outline/sides.js';
import { add2, distance2, scale2, type Vec2 } from '../vec2.js';
import { type Contour, type NamedSide, placeWords } from './contour.js';
import { type Link, lengthOf, type Nodes } from './links.js';

/** Pieces whose middle and length differ by less, mm, between the same ends are one drawn twice. */
const ONE_PIECE = 0.01;

/** A piece left out, and the one that lies there already. */
export interface Doubled {
  readonly name: string;
  readonly on: string;
}

/** Middle of a piece's sides, the same whichever way it runs. */
function middleOf(sides: readonly NamedSide[]): Vec2 {
  const sum = sides.reduce<Vec2>((m, s) => add2(m, pointAlong(s.side, 0.5)), [0, 0]);
  return scale2(sum, 1 / sides.length);
}

/** What is left once what was drawn twice is out. */
interface Untwinned<T> {
  readonly kept: readonly T[];
  readonly doubled: readonly Doubled[];
}

/** The links without those drawn twice. Throws RangeError where more than two are left at one node. */
export function withoutTwinLinks({ places, links }: Nodes): Untwinned<Link> {
  const doubled: Doubled[] = [];
  const at = places.map((): (Link & { readonly middle: Vec2 })[] => []);
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
  return { kept, doubled };
}

/** Closed contours, each by the name of its first piece, without those that lie on an earlier one. */
export function withoutTwinContours(
  all: readonly { readonly name: string; readonly contour: Contour }[],
): Untwinned<Contour> {
  const doubled: Doubled[] = [];
  const kept: { name: string; contour: Contour; length: number; middle: Vec2 }[] = [];
  for (const { name, contour } of all) {
    const length = lengthOf(contour);
    const middle = weightedMiddle(contour, length);
    const twin = kept.find((k) => Math.abs(k.length - length) < ONE_PIECE && distance2(k.middle, middle) < ONE_PIECE);
    if (twin === undefined) kept.push({ name, contour, length, middle });
    else doubled.push({ name, on: twin.name });
  }
  return { kept: kept.map((k) => k.contour), doubled };
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

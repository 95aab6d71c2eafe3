import { sideLength } from '../outline/sides.js';
import { distance2, type Vec2 } from '../vec2.js';
import type { Contour, Piece } from './contour.js';
import { pointGrid } from './point-grid.js';

/** Ends this close, mm, are one point: coordinates are written with three decimals and more. */
export const ONE_POINT = 0.002;

/** An open piece with the nodes its ends stand on. */
export interface Link {
  readonly piece: Piece;
  readonly order: number;
  /** Of its line, mm. */
  readonly length: number;
  /** Nodes of its first and last end. */
  readonly nodes: readonly [number, number];
}

/** Open pieces joined where their ends are one point; a node is an index into the places. */
export interface Nodes {
  readonly places: readonly Vec2[];
  readonly links: readonly Link[];
}

/** Length of a run of sides, mm. */
export const lengthOf = (sides: Contour): number => sides.reduce((sum, s) => sum + sideLength(s.side), 0);

const firstEnd = (p: Piece): Vec2 => p.sides[0]!.side.from;
const lastEnd = (p: Piece): Vec2 => p.sides[p.sides.length - 1]!.side.to;

/** The nodes of open pieces: ends within `ONE_POINT` are one. */
export function nodesOf(open: readonly Omit<Link, 'nodes'>[]): Nodes {
  const grid = pointGrid(ONE_POINT);
  const places: Vec2[] = [];
  const nodeAt = (p: Vec2): number => {
    const found = grid.near(p).find((n) => distance2(places[n]!, p) <= ONE_POINT);
    if (found !== undefined) return found;
    grid.add(p, places.length);
    return places.push(p) - 1;
  };
  const links = open.map((o) => ({ ...o, nodes: [nodeAt(firstEnd(o.piece)), nodeAt(lastEnd(o.piece))] as const }));
  return { places, links };
}

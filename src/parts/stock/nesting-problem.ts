import type { StockItem } from './bill.js';
import { type Load, loadsOf, type Pattern, type PieceClass, type Room, roomOf, type Saw } from './pattern.js';

/** Pieces of one size of tube and the stock of that size. */
export interface NestingProblem {
  readonly items: readonly StockItem[];
  /** What one of each item counts: 1, or its price. */
  readonly costs: readonly number[];
  readonly classes: readonly PieceClass[];
  readonly saw: Saw;
}

/** A way to lay a piece on an item. */
export interface Option {
  readonly piece: number;
  readonly load: Load;
}

/** A problem with what every item offers and every way to lay every piece on it. */
export interface OpenProblem extends NestingProblem {
  readonly rooms: readonly Room[];
  /** By item. */
  readonly options: readonly (readonly Option[])[];
}

/** Works out the ways to lay pieces on items. */
export const openProblem = (problem: NestingProblem): OpenProblem => ({
  ...problem,
  rooms: problem.items.map((item) => roomOf(item, problem.saw)),
  options: problem.items.map((item) =>
    problem.classes.flatMap(({ shape }, piece) => loadsOf(shape, item, problem.saw).map((load) => ({ piece, load }))),
  ),
});

/** Patterns that together make the pieces, and how many of every class no stock is left for. */
export interface Nesting {
  readonly patterns: readonly Pattern[];
  readonly short: readonly number[];
}

/** What a nesting costs. */
export const costOf = (problem: NestingProblem, { patterns }: Nesting): number =>
  patterns.reduce((total, p) => total + problem.costs[p.item]!, 0);

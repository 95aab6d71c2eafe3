import type { OpenProblem, Option } from './nesting-problem.js';
import { FIT, type Pattern } from './pattern.js';

/** Cells a stick is divided into at most, and the finest cell, mm. */
const MOST_CELLS = 200_000;
const FINEST = 0.01;

/**
 * The pattern of a stick worth most, by dynamic programming over its length in small cells (Gilmore and Gomory 1963). Lengths count as
 * whole cells rounded up, so the pattern can be cut; `worth` is no less than that of any pattern, because it allows every piece of
 * one its rounding.
 */
export function bestOnStick(
  problem: OpenProblem,
  item: number,
  worths: readonly number[],
): { pattern: Pattern; worth: number } {
  const room = problem.rooms[item]!.stick;
  const copies = copiesOf(problem, item, worths, room);
  const cell = Math.max(FINEST, room / MOST_CELLS);
  const sizes = copies.map((o) => Math.max(1, Math.ceil(o.load.stick / cell - 1e-6)));
  const exact = copies.every((o, i) => Math.abs(sizes[i]! * cell - o.load.stick) < 1e-6);
  const cells = Math.floor((room + FIT.length) / cell);
  const most = exact ? cells : cells + 1 + Math.min(copies.length, mostPieces(copies, room));
  const best = new Float64Array(most + 1);
  const taken = copies.map((o, i) => {
    const row = new Uint8Array(most + 1);
    const [size, worth] = [sizes[i]!, worths[o.piece]!];
    for (let c = most; c >= size; c--) {
      const value = best[c - size]! + worth;
      if (value > best[c]!) {
        best[c] = value;
        row[c] = 1;
      }
    }
    return row;
  });
  const cuts: Option[] = [];
  for (let i = copies.length - 1, c = cells; i >= 0; i--) {
    if (taken[i]![c] !== 1) continue;
    cuts.push(copies[i]!);
    c -= sizes[i]!;
  }
  return { pattern: { item, cuts }, worth: best[most]! };
}

/** Every piece that could be cut, once for each wanted, none that is worth nothing. */
const copiesOf = (problem: OpenProblem, item: number, worths: readonly number[], room: number): Option[] =>
  problem.options[item]!.filter((o) => worths[o.piece]! > 0).flatMap((o) =>
    Array.from({ length: Math.min(problem.classes[o.piece]!.demand, Math.floor(room / o.load.stick + 1e-6)) }, () => o),
  );

/** How many pieces a pattern has at most: the shortest ones. */
function mostPieces(copies: readonly Option[], room: number): number {
  let left = room;
  let count = 0;
  for (const size of copies.map((o) => o.load.stick).sort((a, b) => a - b)) {
    count += 1;
    left -= size;
    if (left < 0) break;
  }
  return count;
}

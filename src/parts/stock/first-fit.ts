import type { Nesting, OpenProblem, Option } from './nesting-problem.js';
import { fits, less, type Pattern, type PieceShape, type Room } from './pattern.js';

/**
 * First-fit-decreasing: pieces that bind the most stock first, each into the first begun item it fits, else into a new one of the
 * cheapest kind that makes it, the plan's first of equals. Quick and often good; the yardstick of the optimum.
 */
export function firstFit(problem: OpenProblem): Nesting {
  const { classes, items, costs } = problem;
  const begun: { pattern: Pattern; room: Room }[] = [];
  const left = items.map((i) => i.available ?? Number.POSITIVE_INFINITY);
  const short = classes.map(() => 0);
  const byCost = items.map((_, i) => i).sort((a, b) => costs[a]! - costs[b]! || a - b);
  const order = classes.map((_, piece) => piece).sort((a, b) => bySize(classes[a]!.shape, classes[b]!.shape) || a - b);
  const cut = (at: { pattern: Pattern; room: Room }, option: Option): void => {
    at.pattern = { ...at.pattern, cuts: [...at.pattern.cuts, option] };
    at.room = less(at.room, option.load);
  };
  const place = (piece: number): boolean => {
    for (const at of begun) {
      const option = problem.options[at.pattern.item]!.find((o) => o.piece === piece && fits(o.load, at.room));
      if (option !== undefined) {
        cut(at, option);
        return true;
      }
    }
    const item = byCost.find((i) => left[i]! > 0 && problem.options[i]!.some((o) => o.piece === piece));
    if (item === undefined) return false;
    left[item]! -= 1;
    const fresh = { pattern: { item, cuts: [] }, room: problem.rooms[item]! };
    begun.push(fresh);
    cut(fresh, problem.options[item]!.find((o) => o.piece === piece)!);
    return true;
  };
  for (const piece of order) {
    for (let n = 0; n < classes[piece]!.demand; n++) if (!place(piece)) short[piece]! += 1;
  }
  return { patterns: begun.map((b) => b.pattern), short };
}

/** Bends before straights, both legs before one, large before small. */
function bySize(a: PieceShape, b: PieceShape): number {
  if (a.bend === null || b.bend === null) {
    return a.bend === null && b.bend === null ? b.long - a.long : a.bend === null ? 1 : -1;
  }
  return Number(b.short > 0) - Number(a.short > 0) || b.bend.angle - a.bend.angle || b.long - a.long;
}

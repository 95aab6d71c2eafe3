import type { OpenProblem, Option } from './nesting-problem.js';
import { fits, less, type Pattern, type Room } from './pattern.js';

/** What a search over the patterns of one item found. */
export interface PatternSearch {
  /** With what each is worth; in a search for the best in rising order of worth. */
  readonly found: readonly { readonly pattern: Pattern; readonly worth: number }[];
  /** False when the counted limit ended it. */
  readonly complete: boolean;
}

interface Ordered extends Option {
  readonly worth: number;
  /** What it takes of the resource that binds: arc of a bend, else length. */
  readonly size: number;
  readonly onArc: boolean;
}

/** Worths closer than this are the same. */
const SAME = 1e-9;

/**
 * Patterns of an item by depth-first search with the fractional bound of knapsacks (Dantzig 1957). `worths` is by class. A search for
 * the `best` gives every pattern that beat all before it and is worth more than `floor`; one for `all` every full pattern worth at
 * least `floor`.
 */
export function searchPatterns(
  problem: OpenProblem,
  item: number,
  worths: readonly number[],
  wanted: 'best' | 'all',
  floor: number,
  mostNodes: number,
): PatternSearch {
  const options = ordered(problem, item, worths).filter((o) => wanted === 'all' || o.worth > SAME);
  const left = problem.classes.map((c) => c.demand);
  const found: { pattern: Pattern; worth: number }[] = [];
  const cuts: Option[] = [];
  let nodes = 0;
  let least = floor;
  const visit = (i: number, room: Room, worth: number): void => {
    nodes += 1;
    if (nodes > mostNodes) return;
    const most = worth + boundFrom(options, i, room, left);
    if (wanted === 'best' ? most <= least + SAME : most < least - SAME) return;
    if (i === options.length) {
      if (wanted === 'all' && options.some((o) => left[o.piece]! > 0 && fits(o.load, room))) return;
      found.push({ pattern: { item, cuts: [...cuts] }, worth });
      if (wanted === 'best') least = worth;
      return;
    }
    const option = options[i]!;
    const rooms = [room];
    while (left[option.piece]! >= rooms.length && fits(option.load, rooms.at(-1)!)) {
      rooms.push(less(rooms.at(-1)!, option.load));
    }
    for (let n = rooms.length - 1; n >= 0; n--) {
      for (let k = 0; k < n; k++) cuts.push(option);
      left[option.piece]! -= n;
      visit(i + 1, rooms[n]!, worth + n * option.worth);
      left[option.piece]! += n;
      cuts.length -= n;
    }
  };
  visit(0, problem.rooms[item]!, 0);
  return { found, complete: nodes <= mostNodes };
}

/** Bent pieces before straights, each by worth for its size; the ways to lay one piece stand together. */
function ordered(problem: OpenProblem, item: number, worths: readonly number[]): Ordered[] {
  return problem.options[item]!.map((o): Ordered => {
    const onArc = o.load.arc > 0;
    const size = onArc ? o.load.arc : o.load.stick + o.load.leg1 + o.load.leg2;
    return { ...o, worth: worths[o.piece]!, size, onArc };
  }).sort(
    (a, b) =>
      Number(b.onArc) - Number(a.onArc) || b.worth / b.size - a.worth / a.size || b.size - a.size || a.piece - b.piece,
  );
}

/** The most that the options from the i-th on can add: each resource filled to the last bit, best first. */
function boundFrom(options: readonly Ordered[], i: number, room: Room, left: readonly number[]): number {
  let [arc, straight] = [room.arc, room.stick + room.leg1 + room.leg2];
  let most = 0;
  let before = -1;
  for (let k = i; k < options.length; k++) {
    const { piece, size, worth, onArc } = options[k]!;
    const free = onArc ? arc : straight;
    if (piece === before || free <= 0) continue;
    before = piece;
    const taken = Math.min(left[piece]! * size, free);
    most += (worth * taken) / size;
    if (onArc) arc -= taken;
    else straight -= taken;
  }
  // what may be exceeded by rounding is added, so that the bound stays one
  return most * (1 + 1e-9);
}

/** What a weld more is worth against cutting, mm: a tube made shorter is opened and closed once, one made longer gets a piece let in and two welds. */
const WELD = 10;

/** Changes below this are none, mm. */
const NO_CHANGE = 1e-9;

/** A tube's length and how much shorter it can become, mm. */
export interface Shortenable {
  readonly length: number;
  readonly room: number;
}

/** Lengths the tubes are brought between, and the change of each, mm. */
export interface CommonLength {
  readonly from: number;
  readonly to: number;
  readonly changes: readonly number[];
}

/**
 * The band of `width` mm that all tubes reach with the least work: each mm cut or added counts one, each weld ten. The best band starts or ends
 * at a tube's length, or where a tube has no more room, so that trying those is exact. Of bands with as little work the lowest.
 */
export function commonLength(tubes: readonly Shortenable[], width: number): CommonLength {
  const starts = tubes
    .flatMap(({ length, room }) => [length, length - width, length - room - width])
    .sort((a, b) => a - b);
  let best: CommonLength | null = null;
  let least = Number.POSITIVE_INFINITY;
  for (const from of starts) {
    const changes = tubes.map(({ length }) => changeInto(length, from, from + width));
    if (changes.some((c, i) => -c > tubes[i]!.room + NO_CHANGE)) continue;
    const work = changes.reduce((sum, c) => sum + Math.abs(c) + WELD * (c > 0 ? 2 : c < 0 ? 1 : 0), 0);
    if (work >= least - 1e-6) continue;
    least = work;
    best = { from, to: from + width, changes };
  }
  return best!;
}

function changeInto(length: number, from: number, to: number): number {
  const change = length > to ? to - length : length < from ? from - length : 0;
  return Math.abs(change) < NO_CHANGE ? 0 : change;
}

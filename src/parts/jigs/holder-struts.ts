import type { Stiffness } from '../../geometry/compliance.js';
import type { JigPlan } from '../../params/plan.js';
import type { HolderBlock } from './holder-block.js';
import { type StrutOffer, type StrutSet, stiffestSets } from './strut-choice.js';
import { freeLines, type StrutSpace } from './strut-search.js';
import { STRUT_SIZES } from './strut-sizes.js';
import { MOST_DEFLECTION, strutStiffness } from './strut-stiffness.js';

/** Most struts of one holder, and where feet under the first pieces ask for the same bolts: three of the thinnest. */
const MOST_STRUTS = 4;
const MOST_BESIDE_FEET = 3;

/** The struts of a holder and the block they are made for. */
export interface HolderStruts extends StrutSet {
  readonly block: HolderBlock;
}

/** What a holder's struts are looked for with. */
export interface StrutsWanted {
  readonly jig: JigPlan;
  /** Block and surroundings for struts of a diameter, mm; null where no such block can be. */
  readonly spaceFor: (strut: number) => StrutSpace | null;
  /** What else holds it, in each of the cases that count. */
  readonly cases: readonly Stiffness[];
  /** Fewest struts where there is room for more. */
  readonly fewest: 2 | 3;
}

/**
 * Struts for one holder: of the plan's diameter, or the thinnest on which the holder gives no more than its limit; `fewest` of
 * them if that does, else up to four; two where no three can stand. Straight ones first, by elbows where those do not do. Where none does, the
 * stiffest, two at least if any two can stand; null when not even one can.
 */
export function holderStruts({ jig, spaceFor, cases, fewest }: StrutsWanted): HolderStruts | null {
  const sizes = jig.strut === null ? STRUT_SIZES.slice(0, jig.foot ? 1 : undefined) : [jig.strut];
  let stiffest: HolderStruts | null = null;
  for (const shape of ['straight', 'elbow'] as const) {
    for (const size of sizes) {
      const space = spaceFor(size);
      if (!space) continue;
      const sets = setsIn(space, shape, jig, cases);
      const least = Math.min(fewest, Math.max(2, sets.length));
      const holding = sets.find((s) => s.lines.length >= least && s.deflection <= MOST_DEFLECTION);
      if (holding) return holding;
      for (const set of sets) if (stiffest === null || isBetter(set, stiffest)) stiffest = set;
    }
  }
  return stiffest;
}

/** The stiffest sets of each number of struts of one size, straight, or straight and by an elbow. */
function setsIn(
  space: StrutSpace,
  shape: 'straight' | 'elbow',
  jig: JigPlan,
  cases: readonly Stiffness[],
): HolderStruts[] {
  const { block, frame } = space;
  const lines = [...freeLines(space, 'straight'), ...(shape === 'elbow' ? freeLines(space, 'elbow') : [])];
  const offers = lines.map((line): StrutOffer => ({ line, stiffness: strutStiffness(block, frame, line, jig) }));
  return stiffestSets(offers, block, jig.foot ? MOST_BESIDE_FEET : MOST_STRUTS, cases).map((set) => ({
    ...set,
    block,
  }));
}

/** Two struts before one, however thick, then what gives less. */
function isBetter(a: HolderStruts, b: HolderStruts): boolean {
  const [p, q] = [a, b].map((s) => s.lines.length >= 2);
  return p === q ? a.deflection < b.deflection : p === true;
}

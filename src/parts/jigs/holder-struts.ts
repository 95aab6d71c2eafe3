import type { Stiffness } from '../../geometry/compliance.js';
import type { JigPlan } from '../../params/plan.js';
import type { HolderBlock } from './holder-block.js';
import { type StrutOffer, type StrutSet, stiffestSets } from './strut-choice.js';
import { freeLines } from './strut-search.js';
import { STRUT_SIZES } from './strut-sizes.js';
import type { StrutSpace } from './strut-space.js';
import { MOST_DEFLECTION, strutPlastic, strutStiffness } from './strut-stiffness.js';

/** Most struts of one holder, and where feet under the first pieces ask for the same bolts: three of the thinnest. */
const MOST_STRUTS = 4;
const MOST_BESIDE_FEET = 3;

/** The struts of a holder and the block they are made for. */
export interface HolderStruts extends StrutSet {
  readonly block: HolderBlock;
  /** What the stiffest that could stand there give, mm, where no struts hold the limit and these are the lighter choice; else null. */
  readonly stiffest: number | null;
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

/** Where no struts hold the limit, those are taken that use the least plastic and are this stiff at least, as a share of the stiffest. Our own figure. */
const STIFF_ENOUGH = 0.8;

/** A set with the plastic it takes, mm3. */
interface Weighed extends StrutSet {
  readonly block: HolderBlock;
  readonly plastic: number;
}

/**
 * Struts for one holder, of the plan's diameter or of any the program chooses from: those of least plastic on which the holder gives no
 * more than its limit; `fewest` of them at least, up to four; two where no three can stand. Straight ones first, by elbows where those do not do.
 * Where none hold it, those of least plastic that are nearly as stiff as the stiffest, two at least if any two can stand; null when not even one can.
 */
export function holderStruts({ jig, spaceFor, cases, fewest }: StrutsWanted): HolderStruts | null {
  const sizes = jig.strut === null ? STRUT_SIZES.slice(0, jig.foot ? 1 : undefined) : [jig.strut];
  const spaces = sizes.flatMap((size) => spaceFor(size) ?? []);
  const straight = spaces.map((space) => offersIn(space, 'straight', jig));
  const all: Weighed[] = [];
  for (const shape of ['straight', 'elbow'] as const) {
    const holding: Weighed[] = [];
    for (const [i, space] of spaces.entries()) {
      const offers = shape === 'straight' ? straight[i]! : [...straight[i]!, ...offersIn(space, 'elbow', jig)];
      const sets = setsOf(offers, space.block, jig, cases);
      const least = Math.min(fewest, Math.max(2, sets.length));
      const held = sets.filter((s) => s.lines.length >= least && s.deflection <= MOST_DEFLECTION);
      all.push(...sets);
      holding.push(...held);
      // thicker ones would be no fewer
      if (held.some((s) => s.lines.length === least)) break;
    }
    if (holding.length > 0) return { ...lightest(holding), stiffest: null };
  }
  return stiffEnough(all);
}

/** The lightest of those that are nearly as stiff as the stiffest. */
function stiffEnough(all: readonly Weighed[]): HolderStruts | null {
  const several = all.filter((s) => s.lines.length >= 2);
  const sets = several.length > 0 ? several : all;
  if (sets.length === 0) return null;
  const stiffest = Math.min(...sets.map((s) => s.deflection));
  const chosen = lightest(sets.filter((s) => s.deflection * STIFF_ENOUGH <= stiffest));
  return { ...chosen, stiffest: chosen.deflection > stiffest ? stiffest : null };
}

const lightest = (sets: readonly Weighed[]): Weighed => sets.reduce((a, b) => (b.plastic < a.plastic ? b : a));

const offersIn = (space: StrutSpace, shape: 'straight' | 'elbow', jig: JigPlan): StrutOffer[] =>
  freeLines(space, shape).map((line) => ({ line, stiffness: strutStiffness(space.block, space.frame, line, jig) }));

/** The stiffest sets of each number of struts among those on offer. */
const setsOf = (
  offers: readonly StrutOffer[],
  block: HolderBlock,
  jig: JigPlan,
  cases: readonly Stiffness[],
): Weighed[] =>
  stiffestSets(offers, block, jig.foot ? MOST_BESIDE_FEET : MOST_STRUTS, cases).map((set) => ({
    ...set,
    block,
    plastic: set.lines.reduce((sum, line) => sum + strutPlastic(block, line, jig), 0),
  }));

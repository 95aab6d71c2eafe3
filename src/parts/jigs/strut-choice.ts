import type { Stiffness } from '../../geometry/compliance.js';
import { segmentApproach } from '../../geometry/space/segment-distance.js';
import { distance } from '../../geometry/vec3.js';
import type { HolderBlock } from './holder-block.js';
import { type StrutLine, takenBy } from './strut-line.js';
import { inTheWay, isClearOfPad, STRUT_GAP } from './strut-space.js';
import { deflectionOn } from './strut-stiffness.js';

/** Struts that can stand together. */
export interface StrutSet {
  readonly lines: readonly StrutLine[];
  /** How far the holder gives with its dummy tubes but one, and on the struts alone, mm. */
  readonly deflection: number;
  readonly alone: number;
}

/** A strut that could stand. */
export interface StrutOffer {
  readonly line: StrutLine;
  readonly stiffness: Stiffness;
}

/** Sets kept from each number of struts to the next. */
const KEPT = 16;

/**
 * For every number of struts, up to `most`, the stiffest set that a beam search finds among those that can stand together: the best
 * pairs, each with every third, the best of those with every fourth. `cases`:
 * what else may hold the holder, the worst counts.
 */
export function stiffestSets(
  offers: readonly StrutOffer[],
  block: HolderBlock,
  most: number,
  cases: readonly Stiffness[],
): StrutSet[] {
  const together = compatible(offers, block);
  const weigh = (set: readonly number[]): Weighed => {
    const supports = set.map((i) => offers[i]!.stiffness);
    const alone = deflectionOn(supports);
    return { set, alone, deflection: cases.length === 0 ? alone : deflectionOn(supports, cases) };
  };
  let kept: Weighed[] = offers.map((_, i) => weigh([i]));
  const sets: StrutSet[] = [];
  for (let count = 1; count <= most && kept.length > 0; count++) {
    const best = kept.reduce((a, b) => (scoreOf(b) < scoreOf(a) ? b : a));
    const { set, deflection, alone } = best;
    sets.push({ lines: set.map((i) => offers[i]!.line), deflection, alone });
    const grown = new Map<string, readonly number[]>();
    for (const { set } of kept) {
      for (let i = 0; i < offers.length; i++) {
        if (!set.every((j) => together[i]![j])) continue;
        const more = [...set, i].sort((a, b) => a - b);
        grown.set(more.join(' '), more);
      }
    }
    kept = [...grown.values()].map(weigh).sort((a, b) => scoreOf(a) - scoreOf(b));
    // all pairs were weighed; from there on only the best go on
    kept = kept.slice(0, KEPT);
  }
  return sets;
}

interface Weighed extends Pick<StrutSet, 'deflection' | 'alone'> {
  readonly set: readonly number[];
}

/** Less is better: until the dummy tubes are in, the struts stand alone, which counts for a tenth. Our own weight. */
const scoreOf = ({ deflection, alone }: Weighed): number => deflection + alone / 10;

/** Which of the struts can stand beside which. */
function compatible(offers: readonly StrutOffer[], block: HolderBlock): boolean[][] {
  const table = offers.map(() => new Array<boolean>(offers.length).fill(false));
  for (let i = 0; i < offers.length; i++) {
    for (let j = 0; j < i; j++) {
      const apart = standApart(offers[i]!.line, offers[j]!.line, block);
      table[i]![j] = apart;
      table[j]![i] = apart;
    }
  }
  return table;
}

/** True when two struts with their arms and feet are not in each other's way. */
function standApart(a: StrutLine, b: StrutLine, block: HolderBlock): boolean {
  if (distance(a.points[0]!, b.points[0]!) < 6 * block.strut || inTheWay(a.foot, b.foot)) return false;
  return [[a, b] as const, [b, a] as const].every(([one, other]) => {
    const beside = takenBy(other, block);
    // a strut without its arm: arms of one holder may meet
    return takenBy(one, block)
      .slice(1)
      .every(
        ({ from, to, radius }) =>
          isClearOfPad(from, to, radius, other.foot) &&
          beside.every((o) => segmentApproach(from, to, o.from, o.to).distance >= radius + o.radius + 1 + STRUT_GAP),
      );
  });
}

import type { Plan } from '../../params/plan.js';
import { ISO_ALL } from '../../params/stock/iso-tubes.js';
import { INCH } from './rule.js';

/** A tube that can be had, mm. */
export interface TubeOnOffer {
  /** As its table calls it. */
  readonly name: string;
  /** Outside diameter, mm. */
  readonly od: number;
  /** Wall, mm. */
  readonly wall: number;
}

/** The tubes a bore is looked for among: the plan's own sizes, then the diameters of ISO 1127, or in inches every eighth, with the plan's wall. */
export function tubesOnOffer({ tube, secondaries, units }: Plan): TubeOnOffer[] {
  const own = [tube, ...tube.steps, ...(secondaries === null ? [] : [secondaries])].map((t) => ({
    od: t.od,
    wall: t.wall,
  }));
  const listed = units === 'in' ? EIGHTHS : ISO_ALL;
  const all = [
    ...own.map((t) => ({ ...t, name: 'of the plan' })),
    ...listed.map((od) => ({ od, wall: tube.wall, name: units === 'in' ? 'by eighths of an inch' : 'ISO 1127' })),
  ];
  return all
    .filter((t, i) => all.findIndex((o) => Math.abs(o.od - t.od) < 0.05 && Math.abs(o.wall - t.wall) < 0.005) === i)
    .sort((a, b) => boreOf(a) - boreOf(b));
}

/** Outside diameters tube is sold in by the inch, 1 to 4 in, mm: common practice, no source. */
const EIGHTHS: readonly number[] = Array.from({ length: 25 }, (_, i) => (1 + i / 8) * INCH);

/** mm. */
export const boreOf = ({ od, wall }: { readonly od: number; readonly wall: number }): number => od - 2 * wall;

/** The tubes next below and next above a bore, mm; null where there is none. One of the bore itself is both. */
export function nearestTubes(
  offer: readonly TubeOnOffer[],
  bore: number,
): { readonly below: TubeOnOffer | null; readonly above: TubeOnOffer | null } {
  const below = offer.filter((t) => boreOf(t) <= bore + 1e-6).at(-1) ?? null;
  const above = offer.find((t) => boreOf(t) >= bore - 1e-6) ?? null;
  return { below, above };
}

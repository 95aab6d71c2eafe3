import { beforeAll, describe, expect, it } from 'vitest';
import type { JigPlan } from '../../../src/params/plan.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { footPlaces } from '../../../src/parts/jigs/foot-places.js';
import { holderBlock, seatsFor } from '../../../src/parts/jigs/holder-block.js';
import { type HolderStruts, holderStruts } from '../../../src/parts/jigs/holder-struts.js';
import { STRUT_SIZES } from '../../../src/parts/jigs/strut-sizes.js';
import type { StrutSpace } from '../../../src/parts/jigs/strut-space.js';
import { MOST_DEFLECTION, strutPlastic } from '../../../src/parts/jigs/strut-stiffness.js';
import { PRINT } from '../../support/print-plan.js';
import { twin } from '../../support/twin.js';

const { plan, primaries } = twin();
const collector = plan.collectors[0]!;
const flange = flangesOf(plan)[0]!;

const spaceFor = (strut: number): StrutSpace | null => {
  const block = holderBlock(plan, collector, strut);
  return (
    block && {
      block,
      frame: collector.frame,
      feet: seatsFor(block.strut).flatMap((r) => footPlaces(plan, flange, r)),
      tubes: primaries,
      ending: primaries.map((p) => p.id),
      obstacles: [],
      taken: [],
    }
  );
};

const strutsOn = (jig: JigPlan): HolderStruts => holderStruts({ jig, spaceFor, cases: [], fewest: 2 })!;
const plasticOf = ({ lines, block }: HolderStruts, jig: JigPlan): number =>
  lines.reduce((sum, line) => sum + strutPlastic(block, line, jig), 0);

describe.each([
  ['stiff plastic', { ...PRINT, walls: 12 }, true],
  ['thin walls without filling', { ...PRINT, walls: 1, infill: 0 }, false],
])('struts of a holder printed with %s', (_, print, holds) => {
  const jig = (strut: number | null): JigPlan => ({ ...plan.jig, print, strut });
  let chosen: HolderStruts;
  let each: { readonly deflection: number; readonly stiffest: number; readonly plastic: number }[];
  beforeAll(() => {
    chosen = strutsOn(jig(null));
    each = STRUT_SIZES.map((size) => {
      const struts = strutsOn(jig(size));
      const { deflection } = struts;
      return { deflection, stiffest: struts.stiffest ?? deflection, plastic: plasticOf(struts, jig(size)) };
    });
  });

  it(`${holds ? 'hold' : 'cannot hold'} the limit`, () => {
    expect(chosen.deflection <= MOST_DEFLECTION).toBe(holds);
    expect(each.some((e) => e.deflection <= MOST_DEFLECTION)).toBe(holds);
    if (holds) expect(chosen.stiffest).toBeNull();
  });

  it('take the least plastic of those that hold it, or of those nearly as stiff as the stiffest where none do', () => {
    const own = plasticOf(chosen, jig(null));
    const stiffest = Math.min(...each.map((e) => e.stiffest));
    const enough = holds ? MOST_DEFLECTION : stiffest / 0.8;
    expect(chosen.deflection).toBeLessThanOrEqual(enough);
    const rivals = each.filter((e) => e.deflection <= enough);
    expect(rivals.length).toBeGreaterThan(0);
    for (const r of rivals) expect(own).toBeLessThanOrEqual(r.plastic * (1 + 1e-12));
  });

  it('say what the stiffest would give where they are the lighter choice', () => {
    const stiffest = Math.min(...each.map((e) => e.stiffest));
    if (holds || chosen.deflection <= stiffest) expect(chosen.stiffest).toBeNull();
    else expect(chosen.stiffest).toBeCloseTo(stiffest, 9);
  });
});

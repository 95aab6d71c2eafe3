import { degrees } from '../../geometry/angle.js';
import { pointFrom } from '../../geometry/frame.js';
import { hullOfRing } from '../../geometry/merge/section.js';
import type { Collector } from './collector.js';
import { ATTACHED_HALF_ANGLE, coneLengthFor, lengthForGrowth } from './cone-growth.js';
import type { Fact } from './fact.js';
import { flowStretches } from './merge-flow.js';
import type { CollectorGeometry } from './merge-geometry.js';
import { equalRadius, ringAt } from './merge-ring.js';

const mm = (label: string, value: number): Fact => ({ label, value, unit: 'mm', digits: 1 });
const mm2 = (label: string, value: number): Fact => ({ label, value, unit: 'mm2', digits: 0 });
const cm3 = (label: string, value: number): Fact => ({ label, value: value / 1000, unit: 'cm3', digits: 1 });
const deg = (label: string, value: number): Fact => ({ label, value: degrees(value), unit: 'deg', digits: 2 });
const ratio = (label: string, value: number): Fact => ({ label, value, unit: '', digits: 3 });

/** A collector's numbers for people. */
export function collectorFacts(c: Collector): readonly Fact[] {
  const { geometry: g } = c;
  return [
    { label: 'inlets', value: g.inlets, unit: '', digits: 0 },
    mm('inlet bore', 2 * g.bore),
    mm('ring diameter', 2 * g.ringRadius),
    deg('merge half-angle', g.mergeHalfAngle),
    ...cutFacts(g),
    mm('merge length', g.mergeLength),
    mm('cone length', g.coneLength),
    ...throatFacts(g),
    mm('tail', g.tail),
    mm('total length', g.totalLength),
    mm('outlet bore', 2 * g.outletBore),
    ...areaFacts(g),
    ...growthFacts(g),
    ...flowStretches(g).map((s) => cm3(`${s.part} volume`, s.volume)),
    cm3('gas volume', c.gasVolume),
    { label: 'mass', value: c.mass, unit: 'kg', digits: 3 },
    ...fittingFacts(c),
  ];
}

/** Along the tube's outside, from its inlet end. */
function cutFacts({ cuts }: CollectorGeometry): Fact[] {
  const { angle, heel, spike, toe } = cuts[0]!;
  if (heel === null || toe === null) return [];
  return [
    deg('cut angle', angle),
    mm('cut begins (heel)', heel),
    ...(spike === null ? [] : [mm('cuts meet (spike)', spike)]),
    mm('cut ends (toe)', toe),
  ];
}

function throatFacts({ throat: t }: CollectorGeometry): Fact[] {
  if (t === null) return [];
  return [
    mm('throat bore', 2 * t.bore),
    mm('throat length', t.to - t.from),
    mm('diffuser length', t.diffuserEnd - t.to),
    deg('diffuser half-angle', t.diffuserHalfAngle),
  ];
}

function areaFacts(g: CollectorGeometry): Fact[] {
  const { inlets, mergeEnd, throat, outlet, outletToInlet } = g.area;
  const hull = hullOfRing(ringAt(g, g.mergeLength, g.bore)).area;
  return [
    mm2('area of all inlets', inlets),
    mm2('area at the merge end', mergeEnd),
    ...(throat === null ? [] : [mm2('area of the throat', throat)]),
    mm2('area of the outlet', outlet),
    ratio('merge end over all inlets', mergeEnd / inlets),
    ...(g.inlets > 1 ? [ratio('step to the cone at the merge end', hull / mergeEnd)] : []),
    ...(throat === null
      ? []
      : [ratio('throat over merge end', throat / mergeEnd), ratio('outlet over throat', outlet / throat)]),
    ratio('outlet over merge end', outlet / mergeEnd),
    ratio('outlet area over one inlet', outletToInlet),
  ];
}

/** How fast the cone widens or draws in, and how long it would have to be for the flow to follow its wall. */
function growthFacts(g: CollectorGeometry): Fact[] {
  const from = equalRadius(g.area.mergeEnd);
  const limit = degrees(ATTACHED_HALF_ANGLE);
  const widens = g.coneHalfAngle > 0;
  const per = (label: string, radius: number, halfAngle: number): Fact =>
    mm(`length for 1 % more area in the ${label}`, lengthForGrowth(radius, halfAngle, 1.01));
  const { throat } = g;
  return [
    deg(widens ? 'cone widens at a half-angle of' : 'cone draws in at a half-angle of', Math.abs(g.coneHalfAngle)),
    mm(`cone length at ${limit} deg`, coneLengthFor(from, g.coneEnd.bore, ATTACHED_HALF_ANGLE)),
    ...(widens ? [per('cone', from, g.coneHalfAngle)] : []),
    ...(throat === null || throat.diffuserHalfAngle === 0
      ? []
      : [
          mm(`diffuser length at ${limit} deg`, coneLengthFor(throat.bore, g.outletBore, ATTACHED_HALF_ANGLE)),
          per('diffuser', throat.bore, throat.diffuserHalfAngle),
        ]),
  ];
}

function fittingFacts({ plan, geometry: g }: Collector): Fact[] {
  const { spike, slip, branch } = g;
  const facts: Fact[] = [];
  if (spike !== null) facts.push(mm('spike length', spike.length), cm3('spike volume', spike.volume));
  if (slip !== null) {
    facts.push(
      mm('sleeve bore', 2 * slip.bore),
      mm('sleeve overlap', slip.overlap),
      mm('sleeve on the merge', slip.land),
    );
  }
  if (branch !== null) {
    const [x, y, z] = pointFrom(plan.frame, branch.end.origin);
    const area = Math.PI * (branch.od / 2 - branch.wall) ** 2;
    facts.push(
      deg('branch saddle angle', branch.angle),
      mm('branch axis meets the collector at', branch.at),
      mm('branch length from the axis', branch.length),
      ratio('branch area over all inlets', area / g.area.inlets),
      mm('branch end x', x),
      mm('branch end y', y),
      mm('branch end z', z),
    );
  }
  return facts;
}

import { either, fillWords, lengthsIn, lengthWords, sizeWords } from '../../params/faults/wording.js';
import type { Plan } from '../../params/plan.js';
import { FREEZING } from '../../params/tables/expansion.js';
import type { LengthUnit } from '../../params/units.js';
import { slipPerLength } from './growth.js';
import { clockPosition } from './ledge.js';
import type { Blend } from './opening.js';
import type { FlangePart } from './part.js';

/** Remarks for the fabricator, for the drawing and the report. `extra`: what the edge got on top, mm. */
export function flangeNotes(plan: Plan, part: Omit<FlangePart, 'notes'>, extra: number): string[] {
  return [
    ...drillNotes(plan, part),
    ...dowelNotes(plan, part),
    ...styleNotes(plan, part),
    ...openingNotes(plan, part),
    ...growthNotes(plan, part),
    ...(extra > 0.02
      ? [
          `edge and fillets are ${lengthWords(extra, plan.units, 2)} wider than asked, so that no side is too short to cut`,
        ]
      : []),
  ];
}

type Made = Omit<FlangePart, 'notes'>;

function drillNotes({ flange, units }: Plan, { region, thickness }: Made): string[] {
  const drilled = region.bolts.filter((b) => b.drill);
  const least = lengthWords(flange.leastCutHole * thickness, units, 1);
  if (drilled.length === 0) return [];
  const ends = drilled.some((b) => b.slot !== null) ? '; of a slot both ends, then open it up' : '';
  return [
    `${drilled.length} of ${region.bolts.length} bolt holes are below ${least} (${flange.leastCutHole} x thickness): centre-mark and drill${ends}`,
  ];
}

function dowelNotes(plan: Plan, { region, growth }: Made): string[] {
  const sizes = [...new Set(region.dowels.map((d) => d.diameter))];
  const words = lengthsIn(plan.units);
  const rows = sizes.map((size) => {
    const count = region.dowels.filter((d) => d.diameter === size).length;
    return `${count} dowel hole${count > 1 ? 's' : ''}: drill ${words(size - 0.2, 2)}, ream ${words(size, 2)} with the flange on the head`;
  });
  const binds = region.dowels.length > 1 && growth.length > 0;
  return [
    ...rows,
    ...(binds && plan.flange.growth !== null
      ? ['more than one dowel holds the hot flange fast: keep one tight, open the others along the flange']
      : []),
  ];
}

function styleNotes(plan: Plan, { relief, region, style, cylinders }: Made): string[] {
  const wanted = plan.flange.style;
  const words = lengthsIn(plan.units);
  const name = ({ between: [a, b] }: Made['relief'][number]): string => `${cylinders[a]} and ${cylinders[b]}`;
  const missing = relief.filter((r) => r.length === 0);
  const short = wanted.kind === 'necked' ? relief.filter((r) => r.length > 0 && r.length < wanted.length - 0.01) : [];
  return [
    ...missing.map((r) => `no room for a ${r.kind} between cylinders ${name(r)}`),
    ...short.map(
      (r) => `the neck between cylinders ${name(r)} is ${words(r.length, 1)} long: bolts and ports leave no more`,
    ),
    ...(style === 'slotted' && region.slots.length > 0
      ? ['saw through one tie of each slot once all is welded and before the face is trued']
      : []),
    ...(style === 'separate' ? ['separate flanges: bolt all to the head, or to a bar, before a tube is tacked'] : []),
  ];
}

function openingNotes({ flange, units }: Plan, { flows }: Made): string[] {
  const { opening, thickness } = flange;
  if (opening.match === 'tube_od') {
    return [
      `openings are sockets for the tube, ${lengthWords(opening.fit, units, 2)} clear per side: give each first piece up to ${lengthWords(thickness, units, 1)} more, it stands in the plate`,
    ];
  }
  const rows = flows.flatMap(({ cylinder, blend }) =>
    blend === null ? [] : [{ cylinder, words: blendWords(blend, units) }],
  );
  return [...new Set(rows.map((r) => r.words))].map((words) => {
    const whose = rows.filter((r) => r.words === words).map((r) => r.cylinder);
    return `cylinder${whose.length > 1 ? 's' : ''} ${either(whose.map(String), 'and')}: ${words}${whose.length > 1 ? ' each' : ''}`;
  });
}

function blendWords({ head, outer, volume }: Blend, units: LengthUnit): string {
  const depth = ({ most }: Blend['head']): string =>
    most.height < 0.05 ? 'nothing' : `most ${lengthWords(most.height, units, 1)} at ${clockPosition(most.angle)}`;
  return `blend by hand to the port at the head face (${depth(head)}) and to the tube at the outer face (${depth(outer)}), about ${fillWords(volume, units)}`;
}

/** How much more one grows than the other: `0.61 mm more per metre`, `0.0073 in more per foot`. */
const slipWords = (slip: number, units: LengthUnit): string =>
  units === 'in' ? `${(12 * slip).toFixed(4)} in more per foot` : `${(1000 * slip).toFixed(2)} mm more per metre`;

function growthNotes({ flange, units }: Plan, { growth, region }: Made): string[] {
  const plan = flange.growth;
  const words = lengthsIn(units);
  if (plan === null || growth.length === 0) return [];
  const celsius = (kelvin: number): string => (kelvin - FREEZING).toFixed(0);
  const fixed = growth.find((g) => g.distance === 0);
  return [
    `growth from ${celsius(plan.cold)} C: head to ${celsius(plan.headHot)} C, flange to ${celsius(plan.flangeHot)} C, ${slipWords(slipPerLength(plan), units)} of flange than of head; bolt ${(fixed?.bolt ?? 0) + 1} stays`,
    ...growth.flatMap((g, i) => {
      const { slot, diameter } = region.bolts[i]!;
      const size =
        slot === null ? `hole ${words(diameter, 2)}` : `slot ${sizeWords([slot.length, diameter], units, 2)}`;
      return g.distance === 0
        ? []
        : [`bolt ${g.bolt + 1}: ${words(g.distance, 1)} away, moves ${words(g.slip, 2)}: ${size}`];
    }),
  ];
}

import { fillWords, lengthWords } from '../params/faults/wording.js';
import type { LengthUnit } from '../params/units.js';
import type { FlangePart } from '../parts/flange/flange.js';
import { clockPosition, type LedgeProfile } from '../parts/flange/ledge.js';
import type { OpeningFlow } from '../parts/flange/opening.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';
import { CONTRACTION } from './slack.js';

/** A ledge up to this height is dressed out with a burr, mm. Common practice, no source. */
const LEDGE = 0.5;

/** Every opening against the port before it and the tube behind it: ledges that face the gas, and areas. */
export function openings({ plan, flanges }: CheckContext): Finding[] {
  const { units } = plan;
  return flanges.flatMap((f) =>
    f.flows.flatMap((flow) => {
      const { shape } = plan.ports.find((p) => p.cylinder === flow.cylinder)!;
      return [
        ledge(f, flow, flow.atHead, units, {
          id: 'opening.port-ledge',
          none: 'The plate leaves no ledge against the port.',
          mend: 'dress it flush, or enlarge the opening (flange.opening)',
          what: 'The plate stands in the gas',
        }),
        ledge(f, flow, flow.atTube, units, {
          id: 'opening.ledge',
          none: 'The tube end leaves no ledge facing the gas.',
          mend: `form the tube's end to the port (${shape}) before welding, or dress it`,
          what: 'The opening reaches beyond the bore of the tube',
        }),
        area(f, flow),
        ...blend(f, flow, units),
      ];
    }),
  );
}

interface LedgeWords {
  readonly id: string;
  readonly none: string;
  readonly what: string;
  readonly mend: string;
}

function ledge(
  flange: FlangePart,
  { cylinder }: OpeningFlow,
  { most }: LedgeProfile,
  units: LengthUnit,
  words: LedgeWords,
): Finding {
  const fine = most.height <= LEDGE;
  return {
    id: words.id,
    level: fine ? 'ok' : 'warn',
    place: `${flange.name}, cylinder ${cylinder}`,
    value: most.height,
    limit: LEDGE,
    unit: 'mm',
    message: fine
      ? words.none
      : `${words.what}: ${lengthWords(most.height, units, 2)} at most, at ${clockPosition(most.angle)} seen from the tubes: ${words.mend}.`,
  };
}

/** The least of opening to port and bore to opening, by area across the port's axis. */
function area(flange: FlangePart, { cylinder, areas: { port, opening, bore } }: OpeningFlow): Finding {
  const [first, second] = [opening / port, bore / opening];
  const ratio = Math.min(first, second);
  const holds = ratio >= CONTRACTION;
  const row = `port : opening : bore = 1 : ${first.toFixed(3)} : ${(bore / port).toFixed(3)}`;
  const mend =
    second <= first
      ? `The bore has only ${(100 * second).toFixed(1)} % of the opening's area: a contraction. A larger tube keeps the area`
      : `The opening has only ${(100 * first).toFixed(1)} % of the port's area: a contraction. Match it to the port or blend it`;
  return {
    id: 'opening.area',
    level: holds ? 'ok' : 'warn',
    place: `${flange.name}, cylinder ${cylinder}`,
    value: ratio,
    limit: CONTRACTION,
    unit: 'ratio',
    message: holds ? `Areas ${row}.` : `${mend} (${row}).`,
  };
}

/** How much is ground away by hand in a transition. */
function blend(flange: FlangePart, flow: OpeningFlow, units: LengthUnit): Finding[] {
  if (flow.blend === null) return [];
  const { head, outer, volume } = flow.blend;
  const depth = Math.max(head.most.height, outer.most.height);
  return [
    {
      id: 'opening.blend',
      level: depth <= flange.thickness ? 'ok' : 'warn',
      place: `${flange.name}, cylinder ${flow.cylinder}`,
      value: depth,
      limit: flange.thickness,
      unit: 'mm',
      message: `Blend by hand: up to ${lengthWords(head.most.height, units, 2)} at the head face, ${lengthWords(outer.most.height, units, 2)} at the outer face, about ${fillWords(volume, units)}${depth <= flange.thickness ? '' : '; steeper than 45 degrees in this plate'}.`,
    },
  ];
}

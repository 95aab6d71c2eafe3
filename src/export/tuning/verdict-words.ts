import type { LengthUnit } from '../../params/units.js';
import { type Comparison, EXISTING } from '../../parts/comparison/comparison.js';
import { balance } from './balance-words.js';
import { lengthFigure } from './figures.js';
import { bandOf, choice, differences, housingWords, LEVEL_WORK, spreadCost, workWords } from './gas-verdict.js';
import { pathVerdict, price } from './path-verdict.js';

/** Which to choose, where they balance, and what it would take: plain sentences with numbers. */
export function verdictWords(comparison: Comparison, name: string, unit: LengthUnit): string[] {
  const { existing, sweeps } = comparison;
  if (existing === null) return headerAlone(comparison, unit);
  const header = sweeps.find((s) => s.system === 'as routed');
  const manifold = sweeps.find((s) => s.system === EXISTING);
  if (header === undefined || manifold === undefined) return pathVerdict(comparison, existing, name, unit);
  return [
    choice(header, manifold, name),
    ...differences(header, manifold, name),
    workWords(header, manifold, name),
    ...spreadCost(sweeps),
    ...balance(comparison, existing, header, manifold, name, unit),
    ...betterHeader(comparison, unit),
    ...housingWords(sweeps),
    price(comparison.header, existing, name),
  ];
}

/** What the search says would make the header better. */
function betterHeader({ exploration }: Comparison, unit: LengthUnit): string[] {
  if (exploration === null) return [];
  const { best, length, changes } = exploration;
  const first = changes.reduce((a, c) => (c.comparison.meanWork > a.comparison.meanWork ? c : a));
  const change =
    first.comparison.meanWork < LEVEL_WORK / 2
      ? 'None of the small changes tried does more than can be told.'
      : `Of the small changes tried, ${first.change} does most for it: ${(100 * first.comparison.meanWork).toFixed(1)} % more work.`;
  return [
    `A better header: about peak power ${lengthFigure(best.length * 1000, unit)} from valve to joint gives most work of the lengths searched, against its ${lengthFigure(length * 1000, unit)}. ${change}`,
  ];
}

function headerAlone({ sweeps }: Comparison, unit: LengthUnit): string[] {
  const routed = sweeps.find((s) => s.system === 'as routed');
  const none = `The plan describes no manifold to compare with: add the section existing, in ${unit === 'in' ? 'inches' : 'mm'}, for that.`;
  if (routed === undefined) return [none];
  const { overlap, pumping } = routed.mean;
  const draws =
    overlap === null
      ? ''
      : `, and the exhaust stands ${(overlap / 1000).toFixed(1)} kPa against the intake over the overlap`;
  return [
    none,
    `Over ${bandOf(routed)} pumping takes ${pumping.toFixed(1)} J a cycle and cylinder on average${draws}.`,
    ...housingWords(sweeps),
  ];
}

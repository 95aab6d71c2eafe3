import type { LengthUnit } from '../../params/units.js';
import { type Comparison, runnersOf } from '../../parts/comparison/comparison.js';
import { middleLoss } from '../../parts/gas-path/bend-loss.js';
import type { PathAudit } from '../../parts/gas-path/path-audit.js';
import type { SpeedBand } from '../../tuning/formulas/wave-return.js';
import { lengthFigure } from './figures.js';

/** What the header costs against the existing path: heat, mass and work. */
export function price(header: PathAudit, existing: PathAudit, name: string): string {
  const more = (a: number, b: number): string => `${Math.abs(a - b).toFixed(1)}`;
  const heat = header.heat > existing.heat ? 'more' : 'less';
  const mass = header.mass > existing.mass ? 'heavier' : 'lighter';
  return `The price: the header gives its neighbours ${more(header.heat / 1000, existing.heat / 1000)} kW ${heat} heat than the ${name}, is ${more(header.mass, existing.mass)} kg ${mass} without flanges, and has to be cut, welded and fitted.`;
}

/** What the paths alone say, before the gas is calculated. */
export function pathVerdict(
  { header, timing }: Comparison,
  existing: PathAudit,
  name: string,
  unit: LengthUnit,
): string[] {
  const loss = (a: PathAudit): number =>
    a.cylinders.reduce((s, c) => s + middleLoss(c.bendLoss), 0) / a.cylinders.length;
  const [mine, theirs] = [loss(header), loss(existing)];
  const spread = (a: PathAudit): string => lengthFigure(runnersOf(a).most - runnersOf(a).least, unit);
  const waves = timing.map((t) => (t.first === null || t.second === null ? null : waveWords(t.first, t.second)));
  return [
    'Which to choose cannot be said from the paths alone: the waves decide, and they have not been calculated for this page. Run evenrun tune with --simulate.',
    `What the paths say: bends cost ${mine.toFixed(2)} dynamic pressures on the header and ${theirs.toFixed(2)} on the ${name}, give or take 40 %. Lengths spread by ${spread(header)} against ${spread(existing)}.`,
    ...(waves[0] && waves[1]
      ? [
          `By wave timing the front of the first and of the second rarefaction falls into the overlap at ${waves[0]} with the header, at ${waves[1]} with the ${name}. An exhaust helps most where the engine lives near one of its bands; rules of timing are a starting point, no more.`,
        ]
      : []),
    price(header, existing, name),
  ];
}

const waveWords = (first: SpeedBand, second: SpeedBand): string =>
  `${first.from.toFixed(0)} to ${first.to.toFixed(0)} and ${second.from.toFixed(0)} to ${second.to.toFixed(0)} rev/min`;

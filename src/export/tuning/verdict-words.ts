import type { LengthUnit } from '../../params/units.js';
import { type Comparison, EXISTING, runnersOf } from '../../parts/comparison/comparison.js';
import { type Stretch, type SweepFigures, stretchesOf } from '../../parts/comparison/sweep-comparison.js';
import { middleLoss } from '../../parts/gas-path/bend-loss.js';
import type { PathAudit } from '../../parts/gas-path/path-audit.js';
import type { SpeedBand } from '../../tuning/formulas/wave-return.js';
import { lengthFigure } from './figures.js';

/** Differences below these are level: a one-dimensional calculation does not tell them. Common practice, no source. Pa; a fraction. */
const LEVEL_OVERLAP = 1000;
const LEVEL_PUMPING = 0.02;

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

type Lead = 'header' | 'manifold' | 'level';

/** Who leads by a mean, the lower winning; level within `level`. */
const leadOf = (header: number, manifold: number, level: number): Lead =>
  Math.abs(header - manifold) <= level ? 'level' : header < manifold ? 'header' : 'manifold';

function leadsOf(header: SweepFigures, manifold: SweepFigures): { overlap: Lead | null; pumping: Lead } {
  const [a, b] = [header.mean, manifold.mean];
  const level = LEVEL_PUMPING * Math.max(Math.abs(a.pumping), Math.abs(b.pumping));
  return {
    overlap: a.overlap === null || b.overlap === null ? null : leadOf(a.overlap, b.overlap, LEVEL_OVERLAP),
    pumping: leadOf(a.pumping, b.pumping, level),
  };
}

function choice(header: SweepFigures, manifold: SweepFigures, name: string): string {
  const { overlap, pumping } = leadsOf(header, manifold);
  const leads = [pumping, ...(overlap === null ? [] : [overlap])];
  const band = bandOf(header);
  if (leads.every((l) => l === 'level')) {
    return `Keep the ${name}: over ${band} the two are level as far as this calculation can tell, and the ${name} costs nothing.`;
  }
  if (leads.every((l) => l !== 'manifold'))
    return `Choose the header: over ${band} it is the better of the two on average.`;
  if (leads.every((l) => l !== 'header'))
    return `Keep the ${name}: over ${band} it is the better of the two on average.`;
  const draws = overlap === 'header' ? 'the header' : `the ${name}`;
  const pumps = pumping === 'header' ? 'the header' : `the ${name}`;
  return `It depends on where the engine lives: over ${band} ${draws} is better in the overlap on average, ${pumps} in pumping work. Read below at which speeds each leads.`;
}

const bandOf = ({ speeds }: SweepFigures): string =>
  `${speeds[0]!.rpm.toFixed(0)} to ${speeds.at(-1)!.rpm.toFixed(0)} rev/min`;

function differences(header: SweepFigures, manifold: SweepFigures, name: string): string[] {
  const [a, b] = [header.mean, manifold.mean];
  const pumping = `Pumping work is ${a.pumping.toFixed(1)} J a cycle and cylinder with the header, ${b.pumping.toFixed(1)} J with the ${name}, on average over these speeds.`;
  const charge = `The cylinders catch ${(100 * a.charging).toFixed(1)} % of a swept volume of fresh gas against ${(100 * b.charging).toFixed(1)} %.`;
  if (a.overlap === null || b.overlap === null)
    return [`The valves do not overlap: only pumping work tells. ${pumping}`, charge];
  const kpa = (pa: number): string => `${(pa / 1000).toFixed(1)} kPa`;
  return [
    `Over the overlap the exhaust stands ${kpa(a.overlap)} against the intake with the header, ${kpa(b.overlap)} with the ${name}; below zero it draws.`,
    `${pumping} ${charge}`,
  ];
}

/** Below this part of the work two exhausts are level. Common practice, no source. */
const LEVEL_WORK = 0.005;

function workWords(header: SweepFigures, manifold: SweepFigures, name: string): string {
  const more = header.mean.work / manifold.mean.work - 1;
  const best = header.speeds
    .map((p, i) => ({ rpm: p.rpm, more: p.indicatedWork / manifold.speeds[i]!.indicatedWork - 1 }))
    .reduce((a, b) => (Math.abs(b.more) > Math.abs(a.more) ? b : a));
  const by = (x: number): string => `${Math.abs(100 * x).toFixed(1)} % ${x < 0 ? 'less' : 'more'}`;
  const mean =
    Math.abs(more) < LEVEL_WORK
      ? 'is level on average'
      : `is ${by(more)} on average with the header than with the ${name}`;
  return `The work of the whole cycle, for comparing only, ${mean}; the header's largest difference is ${by(best.more)} at ${best.rpm.toFixed(0)} rev/min.`;
}

/** What unequal lengths cost, where a header is not at its target. */
function spreadCost(sweeps: readonly SweepFigures[]): string[] {
  const [routed, equal] = ['as routed', 'equal lengths'].map((name) => sweeps.find((s) => s.system === name));
  if (routed === undefined || equal === undefined) return [];
  const cost = 1 - routed.mean.work / equal.mean.work;
  const uneven = (s: SweepFigures): string => (100 * Math.max(...s.speeds.map((p) => p.chargeSpread))).toFixed(1);
  return [
    `As routed the lengths are not equal: that costs ${(100 * cost).toFixed(2)} % of the work, and the cylinders' fresh gas differs by up to ${uneven(routed)} % instead of ${uneven(equal)} %.`,
  ];
}

function balance(
  { header: audit }: Comparison,
  existing: PathAudit,
  header: SweepFigures,
  manifold: SweepFigures,
  name: string,
  unit: LengthUnit,
): string[] {
  const of = (s: SweepFigures, what: (p: SweepFigures['speeds'][number]) => number) =>
    s.speeds.map((p) => ({ rpm: p.rpm, value: what(p) }));
  const pumping = stretchesOf(
    of(header, (p) => p.pumpingWork),
    of(manifold, (p) => p.pumpingWork),
  );
  const known = header.mean.overlap !== null && manifold.mean.overlap !== null;
  const overlap = known
    ? stretchesOf(
        of(header, (p) => p.overlapDifference!),
        of(manifold, (p) => p.overlapDifference!),
      )
    : [];
  return [
    ...(known ? [stretchWords('By the pressure in the overlap', overlap, name)] : []),
    stretchWords('By pumping work', pumping, name),
    whatItTakes(audit, existing, known ? overlap : pumping, header.speeds[0]!.rpm, name, unit),
  ];
}

function stretchWords(by: string, stretches: readonly Stretch[], name: string): string {
  if (stretches.length === 0) return `${by} the two are the same throughout.`;
  const who = (s: Stretch): string => (s.better === 'first' ? 'the header' : `the ${name}`);
  if (stretches.length === 1)
    return `${by} ${who(stretches[0]!)} is better throughout: they balance nowhere in this band.`;
  const parts = stretches.map((s) => `${who(s)} from ${s.from.toFixed(0)} to ${s.to.toFixed(0)}`);
  const changes = stretches.slice(0, -1).map((s) => s.to.toFixed(0));
  return `${by}: ${parts.join(', ')} rev/min. They balance at ${changes.join(', ')} rev/min.`;
}

/** Waves arrive at the same crank angle where length times engine speed stays the same. */
function whatItTakes(
  header: PathAudit,
  existing: PathAudit,
  stretches: readonly Stretch[],
  lowest: number,
  name: string,
  unit: LengthUnit,
): string {
  const [first] = stretches;
  const own = runnersOf(header).most;
  const ratio = own / runnersOf(existing).most;
  if (stretches.length > 1 && first!.better === 'second') {
    const longer = (own * first!.to) / lowest;
    return `For the header to lead from ${lowest.toFixed(0)} rev/min on, its primaries would have to be about ${lengthFigure(longer, unit)} from the valve instead of ${lengthFigure(own, unit)}, since a wave is in step where length times engine speed stays the same; then it loses at the top.`;
  }
  if (first?.better === 'second') {
    return `The header leads nowhere in this band; longer or shorter primaries may: sweep another length before building this one.`;
  }
  return `For the ${name} to do what the header does its ways from valve to joint would have to be ${ratio.toFixed(1)} times as long, ${lengthFigure(own, unit)}, and keep its cylinders apart as long: a different casting.`;
}

function price(header: PathAudit, existing: PathAudit, name: string): string {
  const more = (a: number, b: number): string => `${Math.abs(a - b).toFixed(1)}`;
  const heat = header.heat > existing.heat ? 'more' : 'less';
  const mass = header.mass > existing.mass ? 'heavier' : 'lighter';
  return `The price: the header gives its neighbours ${more(header.heat / 1000, existing.heat / 1000)} kW ${heat} heat than the ${name}, is ${more(header.mass, existing.mass)} kg ${mass} without flanges, and has to be cut, welded and fitted.`;
}

/** What the paths alone say, before the gas is calculated. */
function pathVerdict({ header, timing }: Comparison, existing: PathAudit, name: string, unit: LengthUnit): string[] {
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

/** A divided housing against an open one, by what a turbine is offered. */
function housingWords(sweeps: readonly SweepFigures[]): string[] {
  const offered = (name: string): number | null => {
    const speeds = sweeps.find((s) => s.system === name)?.speeds ?? [];
    const known = speeds.map((p) => p.pulse).filter((p) => p !== null);
    return known.length === 0 ? null : known.reduce((a, b) => a + b, 0) / known.length;
  };
  const [divided, open] = [offered('as routed'), offered('open housing')];
  if (divided === null || open === null) return [];
  const more = divided / open - 1;
  return [
    `The turbine is offered ${divided.toFixed(0)} J a cycle by the divided housing, ${open.toFixed(0)} J by an open one, on average: ${Math.abs(100 * more).toFixed(0)} % ${more < 0 ? 'less' : 'more'}.`,
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

import type { SweepFigures } from '../../parts/comparison/sweep-comparison.js';

/** Differences below these are level: a one-dimensional calculation does not tell them. Common practice, no source. Pa; a fraction. */
const LEVEL_OVERLAP = 1000;
const LEVEL_PUMPING = 0.02;

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

/** Which of the two to choose, in one sentence. */
export function choice(header: SweepFigures, manifold: SweepFigures, name: string): string {
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

/** The speeds of a sweep in words. */
export const bandOf = ({ speeds }: SweepFigures): string =>
  `${speeds[0]!.rpm.toFixed(0)} to ${speeds.at(-1)!.rpm.toFixed(0)} rev/min`;

/** What the two differ in on average, with figures. */
export function differences(header: SweepFigures, manifold: SweepFigures, name: string): string[] {
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
export const LEVEL_WORK = 0.005;

/** How much more work the one gives than the other, on average and at most. */
export function workWords(header: SweepFigures, manifold: SweepFigures, name: string): string {
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
export function spreadCost(sweeps: readonly SweepFigures[]): string[] {
  const [routed, equal] = ['as routed', 'equal lengths'].map((name) => sweeps.find((s) => s.system === name));
  if (routed === undefined || equal === undefined) return [];
  const cost = 1 - routed.mean.work / equal.mean.work;
  const uneven = (s: SweepFigures): string => (100 * Math.max(...s.speeds.map((p) => p.chargeSpread))).toFixed(1);
  return [
    `As routed the lengths are not equal: that costs ${(100 * cost).toFixed(2)} % of the work, and the cylinders' fresh gas differs by up to ${uneven(routed)} % instead of ${uneven(equal)} %.`,
  ];
}

/** A divided housing against an open one, by what a turbine is offered. */
export function housingWords(sweeps: readonly SweepFigures[]): string[] {
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

import type { Comparison } from '../../parts/comparison/comparison.js';
import type { SpeedFigures, SweepFigures } from '../../parts/comparison/sweep-comparison.js';
import type { LinePlot } from './line-plot.js';
import { list, type PageBlock, pageTable, paragraph, section } from './page.js';

/** What the calculation of the gas says, over engine speed. Nothing until it was run. */
export function sweepBlocks({ sweeps, assumptions }: Comparison, names: (system: string) => string): PageBlock[] {
  if (sweeps.length === 0) return [];
  const rough = sweeps.flatMap((s) =>
    s.speeds.filter((p) => !p.converged).map((p) => `${names(s.system)} at ${p.rpm.toFixed(0)} rev/min`),
  );
  return [
    ...section(
      'Calculated over engine speed',
      ...sweepPlots(sweeps, names).map(({ file, plot }): PageBlock => ({ kind: 'plot', file, plot })),
      overlapTable(sweeps, names),
      pumpingTable(sweeps, names),
      chargeTable(sweeps, names),
      ...pulseTable(sweeps, names),
      paragraph(
        'Overlap: mean pressure behind the exhaust valve less that of the intake; below zero the exhaust draws fresh gas in. Pumping work: what one piston spends on the gas in a cycle, less is better. Fresh gas: what is caught over what fills the swept volume; uneven is the best cylinder less the worst.',
      ),
      ...(rough.length > 0 ? [paragraph(`Not yet periodic, so less sure: ${rough.join(', ')}.`)] : []),
    ),
    ...section('What was taken for granted', list(assumptions)),
  ];
}

/** Plots of a sweep and the files they are written to. */
export function sweepPlots(
  sweeps: readonly SweepFigures[],
  names: (system: string) => string,
): { readonly file: string; readonly plot: LinePlot }[] {
  if (sweeps.length === 0 || sweeps[0]!.speeds.length < 2) return [];
  const x = { label: 'Engine speed', unit: 'rev/min' };
  const lines = (of: (s: SpeedFigures) => number) =>
    sweeps.map((s) => ({ label: names(s.system), points: s.speeds.map((p) => [p.rpm, of(p)] as const) }));
  const overlaps = sweeps.every((s) => s.mean.overlap !== null);
  return [
    ...(overlaps
      ? [
          {
            file: 'tuning/overlap.svg',
            plot: {
              title: 'Pressure difference over the overlap, mean of the cylinders',
              x,
              y: { label: 'Exhaust less intake', unit: 'kPa' },
              lines: lines((p) => p.overlapDifference! / 1000),
              levels: [{ at: 0, label: 'above: burned gas is pushed back' }],
            },
          },
        ]
      : []),
    {
      file: 'tuning/pumping.svg',
      plot: {
        title: 'Pumping work of one cylinder',
        x,
        y: { label: 'Pumping work', unit: 'J a cycle' },
        lines: lines((p) => p.pumpingWork),
      },
    },
    {
      file: 'tuning/fresh-gas.svg',
      plot: {
        title: 'Fresh gas caught, mean of the cylinders',
        x,
        y: { label: 'Of what fills the swept volume', unit: '%' },
        lines: lines((p) => 100 * p.chargingEfficiency),
      },
    },
  ];
}

function byRpm(
  title: string,
  sweeps: readonly SweepFigures[],
  names: (system: string) => string,
  cell: (p: SpeedFigures) => string,
): PageBlock {
  const speeds = sweeps[0]!.speeds;
  return pageTable(
    [`<${title}`, ...sweeps.map((s) => names(s.system))],
    speeds.map((p, i) => [`${p.rpm.toFixed(0)} rev/min`, ...sweeps.map((s) => cell(s.speeds[i]!))]),
  );
}

const overlapTable = (sweeps: readonly SweepFigures[], names: (s: string) => string): PageBlock =>
  byRpm('overlap', sweeps, names, (p) =>
    p.overlapDifference === null ? 'no overlap' : `${(p.overlapDifference / 1000).toFixed(1)} kPa`,
  );

const pumpingTable = (sweeps: readonly SweepFigures[], names: (s: string) => string): PageBlock =>
  byRpm('pumping work', sweeps, names, (p) => `${p.pumpingWork.toFixed(1)} J`);

const chargeTable = (sweeps: readonly SweepFigures[], names: (s: string) => string): PageBlock =>
  byRpm(
    'fresh gas',
    sweeps,
    names,
    (p) => `${(100 * p.chargingEfficiency).toFixed(1)} %, uneven ${(100 * p.chargeSpread).toFixed(1)} %`,
  );

function pulseTable(sweeps: readonly SweepFigures[], names: (s: string) => string): PageBlock[] {
  if (sweeps.some((s) => s.speeds.some((p) => p.pulse === null))) return [];
  return [
    byRpm(
      'energy at the turbine',
      sweeps,
      names,
      (p) => `${p.pulse!.toFixed(0)} J a cycle, ${p.steady!.toFixed(0)} if steady`,
    ),
  ];
}

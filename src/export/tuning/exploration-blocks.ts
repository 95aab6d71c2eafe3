import type { LengthUnit } from '../../params/units.js';
import { inches } from '../../params/units.js';
import type { Exploration } from '../../parts/comparison/exploration.js';
import { lengthFigure } from './figures.js';
import type { LinePlot } from './line-plot.js';
import { type PageBlock, pageTable, paragraph, section } from './page.js';

/** What other lengths and small changes would do. */
export function explorationBlocks(found: Exploration, unit: LengthUnit): PageBlock[] {
  const { best, band, changes, speeds, length } = found;
  const words = (metres: number): string => lengthFigure(metres * 1000, unit);
  const percent = (x: number): string => `${x < 0 ? '-' : '+'}${Math.abs(100 * x).toFixed(2)} %`;
  const at = speeds.map((s) => s.toFixed(0)).join(', ');
  const edge = best.atEdge ? ' It lies at the edge of what was searched: the best may be beyond.' : '';
  return section(
    'Other lengths and small changes',
    paragraph(
      `Of primaries from ${words(band.from)} to ${words(band.to)}, valve to joint, ${words(best.length)} gives most work of the cycle over ${at} rev/min; the header has ${words(length)}, ${words(Math.abs(best.length - length))} ${best.length > length ? 'less' : 'more'}.${edge}`,
    ),
    { kind: 'plot', file: 'tuning/best-length.svg', plot: searchPlot(found, unit) },
    pageTable(
      ['<one change, all else as it is', 'work', 'fresh gas', 'pumping'],
      changes.map(({ change, comparison: { meanWork, speeds: each } }) => [
        change,
        percent(meanWork),
        percent(each.reduce((s, c) => s + c.charge, 0) / each.length),
        `${(each.reduce((s, c) => s + c.pumping, 0) / each.length).toFixed(1)} J`,
      ]),
    ),
    paragraph('Means over the same engine speeds. Differences of a few tenths of a percent are level.'),
  );
}

/** Work over length. */
export function searchPlot({ best, length, speeds }: Exploration, unit: LengthUnit): LinePlot {
  const shown = (metres: number): number => (unit === 'in' ? inches(metres * 1000) : metres * 1000);
  return {
    title: 'Work of a cycle over primary length',
    x: { label: 'Length, valve to joint', unit, include: [shown(length)] },
    y: { label: 'Work of one cylinder', unit: 'J a cycle' },
    lines: [
      {
        label: `mean of ${speeds.length} engine speeds`,
        points: best.tried.map((t) => [shown(t.length), t.score] as const),
      },
    ],
    bands: [{ from: shown(length * 0.998), to: shown(length * 1.002), label: 'the header' }],
  };
}

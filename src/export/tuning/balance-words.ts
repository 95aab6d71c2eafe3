import type { LengthUnit } from '../../params/units.js';
import { type Comparison, runnersOf } from '../../parts/comparison/comparison.js';
import { type Stretch, type SweepFigures, stretchesOf } from '../../parts/comparison/sweep-comparison.js';
import type { PathAudit } from '../../parts/gas-path/path-audit.js';
import { lengthFigure } from './figures.js';

/** What speaks for either exhaust, from the speeds that each leads at to its lengths. */
export function balance(
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

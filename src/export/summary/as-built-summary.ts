import { degrees } from '../../geometry/angle.js';
import { length } from '../../geometry/vec3.js';
import type { SpreadFound, TubeFound, Verdict } from '../../parts/as-built/as-built-report.js';
import type { Deviation } from '../../parts/as-built/deviation.js';
import type { Mend } from '../../parts/as-built/mend.js';
import { CAUTIONS } from '../cautions.js';
import type { AsBuiltSummary } from './as-built-schema.js';

type Group = AsBuiltSummary['groups'][number];

/** The worst of all verdicts: one group outside is outside. */
export function overallVerdict(groups: readonly SpreadFound[]): Verdict {
  const found = groups.map((g) => g.verdict);
  if (found.includes('outside')) return 'outside';
  return found.includes('cannot tell') ? 'cannot tell' : 'inside';
}

/** A report of built tubes as plain data. */
export const asBuiltSummary = (name: string, groups: readonly SpreadFound[]): AsBuiltSummary => ({
  schema: 'evenrun-as-built-1',
  name,
  verdict: overallVerdict(groups),
  groups: groups.map(groupOf),
  cautions: [...CAUTIONS],
});

const groupOf = (g: SpreadFound): Group => ({
  of: g.of,
  tolerance_mm: g.tolerance,
  spread_mm: g.spread,
  uncertainty_mm: g.uncertainty,
  verdict: g.verdict,
  unmeasured: [...g.unmeasured],
  tubes: g.tubes.map(tubeOf),
  aim: g.aim && { from_mm: g.aim.from, to_mm: g.aim.to },
  mends: g.mends.map(mendOf),
});

const tubeOf = (t: TubeFound): Group['tubes'][number] => ({
  tube: t.tube.id,
  name: t.tube.name,
  measured_by: t.measured.kind,
  length_mm: t.length,
  uncertainty_mm: t.uncertainty,
  route_mm: t.tube.length,
  target_mm: t.tube.target,
  off_route_mm: t.length - t.tube.length,
  off_target_mm: t.length - t.tube.target,
  deviations: t.deviations.map(deviationOf),
});

function deviationOf({
  measured,
  planned,
  off,
  effect,
  ...rest
}: Deviation): Group['tubes'][number]['deviations'][number] {
  const unit = rest.kind === 'length' ? 'mm' : 'deg';
  const shown = (x: number): number => (unit === 'mm' ? x : degrees(x));
  return { ...rest, measured: shown(measured), planned: shown(planned), off: shown(off), unit, effect_mm: effect };
}

const mendOf = ({ built, by, ways }: Mend): Group['mends'][number] => ({
  tube: built.tube.id,
  change_mm: by,
  ways: ways.map(({ changes, shift }) => ({
    changes: changes.map((c) => ({
      straight: c.straight.index + 1,
      joint: c.straight.joint,
      joints: [...c.straight.joints],
      pieces: [...c.straight.pieces],
      change_mm: c.by,
    })),
    shift: [...shift],
    shift_mm: length(shift),
  })),
});

import type { AsBuilt, MeasuredPiece, MeasuredTube } from '../../params/as-built/as-built.js';
import { nearestName } from '../../params/faults/nearest-name.js';
import type { PlanFault } from '../../params/faults/plan-problem.js';
import { either, show } from '../../params/faults/wording.js';
import type { Plan } from '../../params/plan.js';
import { measurementOf } from './as-built-report.js';
import { builtTube, type TubeToMeasure } from './built-tube.js';

/** What of an as-built file does not go with the plan, by the path of its field. */
export function asBuiltFaults(plan: Plan, tubes: readonly TubeToMeasure[], asBuilt: AsBuilt): PlanFault[] {
  const named: PlanFault[] =
    asBuilt.plan === null || asBuilt.plan === plan.name
      ? []
      : [
          {
            path: ['plan'],
            message: `expected ${show(plan.name)}, the plan it is measured against, found ${show(asBuilt.plan)}`,
          },
        ];
  const own = asBuilt.tubes.flatMap((m, i) =>
    tubeFaults(tubes, m).map((f) => ({ ...f, path: ['tubes', i, ...f.path] })),
  );
  return [...named, ...own];
}

function tubeFaults(tubes: readonly TubeToMeasure[], m: MeasuredTube): PlanFault[] {
  const toMeasure = tubes.find((t) => measurementOf(t, [m]) !== null);
  if (!toMeasure) return [unknownTube(tubes, m)];
  const { measured } = m;
  if (m.from !== null && m.begins === 'flange') {
    return [
      {
        path: [measured.kind === 'water' ? 'water' : 'begins'],
        message: 'a secondary begins at no flange: expected port',
      },
    ];
  }
  if (measured.kind === 'pieces') return pieceFaults(toMeasure, measured.pieces);
  if (measured.kind === 'points') {
    const counts = pointFaults(toMeasure, measured);
    if (counts.length > 0) return counts;
  }
  try {
    const { length } = builtTube(toMeasure, m);
    if (length > toMeasure.cuts.start) return [];
    return [{ path: [measured.kind], message: 'this leaves no tube before the collector' }];
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    return [{ path: [measured.kind], message: `these points make no tube: ${error.message}; try by: intersection` }];
  }
}

function unknownTube(tubes: readonly TubeToMeasure[], m: MeasuredTube): PlanFault {
  const primaries = m.cylinder !== null;
  const known = tubes.filter((t) => 'cylinder' in t.tube === primaries).map((t) => t.tube.id);
  const what = primaries ? 'a cylinder' : 'a collector that feeds another';
  const message =
    known.length === 0
      ? 'the plan has no secondaries'
      : `expected ${what} of the plan (${either(known)}), found ${primaries ? m.cylinder : show(m.from)}`;
  return { path: [primaries ? 'cylinder' : 'from'], message };
}

function pieceFaults({ cuts }: TubeToMeasure, pieces: readonly MeasuredPiece[]): PlanFault[] {
  const known = cuts.pieces.map((c) => c.piece.name);
  return pieces.flatMap((p, i): PlanFault[] => {
    const fault = (field: string, message: string): PlanFault[] => [{ path: ['pieces', i, field], message }];
    const c = cuts.pieces.find((q) => q.piece.name === p.piece);
    if (!c) {
      const near = nearestName(p.piece, known);
      const mend = near ? `; did you mean ${show(near)}?` : `: its pieces are ${either(known, 'and')}`;
      return fault('piece', `${cuts.name} has no piece ${show(p.piece)}${mend}`);
    }
    if (pieces.findIndex((q) => q.piece === p.piece) !== i)
      return fault('piece', `${p.piece} is measured twice; keep one`);
    if (c.angle === null) {
      if (p.length === null) return fault('length', `missing; ${p.piece} is a straight: expected its length`);
      const bent = (['bend', 'before', 'after'] as const).find((f) => p[f] !== null);
      return bent ? fault(bent, `${p.piece} is a straight: it has only a length`) : [];
    }
    if (p.length !== null) return fault('length', `${p.piece} is a bend: expected bend, before or after`);
    if (p.bend === null && p.before === null && p.after === null) {
      return fault('piece', `nothing of ${p.piece} is measured: expected bend, before or after`);
    }
    return [];
  });
}

function pointFaults({ tube }: TubeToMeasure, m: Extract<MeasuredTube['measured'], { kind: 'points' }>): PlanFault[] {
  const straights = tube.path.segments.filter((s) => s.kind === 'straight').length;
  const wanted = m.by === 'tangent' ? 2 * straights : tube.polygon.points.length;
  const how = m.by === 'tangent' ? 'both ends of every straight' : 'both ends and every intersection point';
  if (m.points.length !== wanted) {
    return [{ path: ['points'], message: `expected ${wanted} points (${how}), found ${m.points.length}` }];
  }
  if (m.clr !== null && m.clr.length !== wanted - 2) {
    return [{ path: ['clr'], message: `expected ${wanted - 2} radii, one for each bend, found ${m.clr.length}` }];
  }
  return [];
}

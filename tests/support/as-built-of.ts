import { headingAt, segmentLength } from '../../src/geometry/path/path.js';
import type { Vec3 } from '../../src/geometry/vec3.js';
import type { Measured, MeasuredTube } from '../../src/params/as-built/as-built.js';
import { type TubeToMeasure, waterIn } from '../../src/parts/as-built/built-tube.js';
import { tubesToMeasure } from '../../src/parts/as-built/tubes-to-measure.js';
import type { RoutedHeader } from '../../src/pipeline.js';

/** Every tube of a routed header as it can be measured. */
export const toMeasure = ({ plan, primaries, secondaries, flanges }: RoutedHeader): TubeToMeasure[] =>
  tubesToMeasure(plan, [...primaries, ...secondaries], flanges);

/** A measurement of a tube, uncertainty 0 unless it is given. */
export function measurement(t: TubeToMeasure, measured: Measured, extra: Partial<MeasuredTube> = {}): MeasuredTube {
  const cylinder = 'cylinder' in t.tube ? Number(t.tube.id) : null;
  const from = cylinder === null ? t.tube.id : null;
  return { cylinder, from, measured, begins: 'port', uncertainty: 0, ...extra };
}

/** Both ends of every straight of the route. */
export function tangentPoints({ tube: { path } }: TubeToMeasure): Vec3[] {
  let run = 0;
  return path.segments.flatMap((s) => {
    const from = run;
    run += segmentLength(s);
    return s.kind === 'straight' ? [headingAt(path, from).point, headingAt(path, run).point] : [];
  });
}

/** What each kind of measurement shows of a tube built just as planned. */
export function asPlanned(t: TubeToMeasure): MeasuredTube[] {
  const { tube, cuts } = t;
  const straight = cuts.pieces.reduce((sum, c) => sum + c.legBefore + c.legAfter, 0);
  const arcs = (of: 'insideArc' | 'outsideArc') => cuts.pieces.reduce((sum, c) => sum + (c[of] ?? 0), straight);
  const flange = 'cylinder' in tube ? ({ begins: 'flange' } as const) : {};
  const pieces = cuts.pieces.map((c) => ({
    piece: c.piece.name,
    length: c.angle === null ? c.cutLength : null,
    bend: c.angle,
    before: c.angle === null ? null : c.cutLegBefore,
    after: c.angle === null ? null : c.cutLegAfter,
  }));
  const water = waterIn(tube, cuts.start);
  return [
    measurement(t, { kind: 'length', length: tube.length }),
    measurement(t, { kind: 'length', length: tube.length - cuts.start }, flange),
    measurement(t, { kind: 'pieces', pieces }),
    measurement(t, { kind: 'string', inside: arcs('insideArc'), outside: arcs('outsideArc') }, flange),
    measurement(t, { kind: 'water', volume: water }, flange),
    measurement(t, { kind: 'water', volume: water + t.openingVolume }),
    measurement(t, { kind: 'points', by: 'intersection', points: tube.polygon.points, clr: null }),
    measurement(t, { kind: 'points', by: 'tangent', points: tangentPoints(t), clr: null }),
  ];
}

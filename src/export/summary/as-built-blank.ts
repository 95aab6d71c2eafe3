import { stringify } from 'yaml';
import { degrees } from '../../geometry/angle.js';
import { headingAt, type Path, segmentLength } from '../../geometry/path/path.js';
import type { Vec3 } from '../../geometry/vec3.js';
import { MEASURED_FORMAT } from '../../params/as-built/schema.js';
import type { Plan } from '../../params/plan.js';
import { inches } from '../../params/units.js';
import { type TubeToMeasure, waterIn } from '../../parts/as-built/built-tube.js';
import type { CutPiece } from '../../parts/tube/cut-list.js';

/** Text with the plan's own unit: decimals a tape shows. */
type Shown = (mm: number) => string;

/**
 * A filled-in as-built file for a plan, in its unit: every tube as long as its route, to be written over with what was measured, and below it, as
 * comments, what the other kinds of measurement would show.
 */
export function asBuiltBlank(plan: Plan, tubes: readonly TubeToMeasure[]): string {
  const shown: Shown = plan.units === 'in' ? (mm) => inches(mm).toFixed(3) : (mm) => mm.toFixed(2);
  const lines = [
    '# As-built file: write what was measured over the figures below, which are those of the plan. For every tube keep one kind of',
    '# measurement: length, or one of those behind a # (take the # away and put one before length).',
    '#   length   centreline by tape or string, from the head face (begins: port, as when left out) or from the outer face of',
    '#            the flange (begins: flange), to the collector inlet plane',
    '#   pieces   pieces as they were cut; leave out what was not measured',
    '#   string   two strings on opposite sides of the tube, held down all along, wound round it nowhere: their mean is the centreline',
    '#   water    millilitres that fill the tube alone (from: flange), or with its flange on up to the head face (from: port)',
    '#   points   XYZ of both ends and of every point where straights would meet (by: intersection), or of both ends of every straight',
    '#            (by: tangent)',
    '# uncertainty: what a length may be off by, plus and minus; the usual of its kind when left out.',
    '',
    `evenrun_measured: ${MEASURED_FORMAT}`,
    `units: ${plan.units}`,
    `plan: ${yamlText(plan.name)}`,
    'tubes:',
    ...tubes.flatMap((t) => tubeLines(t, shown)),
  ];
  return `${lines.join('\n')}\n`;
}

const yamlText = (text: string): string => stringify(text, { lineWidth: 0 }).trimEnd();

function tubeLines(t: TubeToMeasure, shown: Shown): string[] {
  const { tube, cuts } = t;
  const primary = 'cylinder' in tube;
  const [inside, outside] = stringsOf(cuts.pieces);
  const begins = primary ? ', begins: port' : '';
  const point = (p: Vec3): string => `[${p.map(shown).join(', ')}]`;
  const water = waterIn(tube, cuts.start) / 1000;
  const other = [
    `pieces:`,
    ...cuts.pieces.map((c) => `  - { ${pieceFields(c, shown)} }`),
    `string: { inside: ${shown(cuts.start + inside)}, outside: ${shown(cuts.start + outside)} }`,
    primary
      ? `water: { volume: ${water.toFixed(1)}, from: flange }    # or ${(water + t.openingVolume / 1000).toFixed(1)}, from: port`
      : `water: { volume: ${water.toFixed(1)}, from: port }`,
    `points: [${tube.polygon.points.map(point).join(', ')}]`,
    'by: intersection',
    `points: [${endsOfStraights(tube.path).map(point).join(', ')}]`,
    'by: tangent',
  ];
  return [
    primary ? `  - cylinder: ${tube.id}` : `  - from: ${yamlText(tube.id)}`,
    `    length: ${shown(tube.length)}${begins === '' ? '' : '    # from the head face; begins: flange when measured from the flange'}`,
    ...other.map((line) => `    # ${line}`),
  ];
}

function pieceFields(c: CutPiece, shown: Shown): string {
  const name = `piece: ${yamlText(c.piece.name)}`;
  if (c.angle === null) return `${name}, length: ${shown(c.cutLength)}`;
  return `${name}, before: ${shown(c.cutLegBefore)}, bend: ${degrees(c.angle).toFixed(2)}, after: ${shown(c.cutLegAfter)}`;
}

/** Inside and outside of all bends with their straights, mm; where bends do not lie in one plane their mean alone is what strings show. */
function stringsOf(pieces: readonly CutPiece[]): [number, number] {
  const straight = pieces.reduce((sum, c) => sum + c.legBefore + c.legAfter, 0);
  const arcs = (of: 'insideArc' | 'outsideArc'): number => pieces.reduce((sum, c) => sum + (c[of] ?? 0), straight);
  return [arcs('insideArc'), arcs('outsideArc')];
}

function endsOfStraights(path: Path): Vec3[] {
  let run = 0;
  return path.segments.flatMap((s) => {
    const from = run;
    run += segmentLength(s);
    return s.kind === 'straight' ? [headingAt(path, from).point, headingAt(path, run).point] : [];
  });
}

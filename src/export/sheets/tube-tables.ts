import { degrees } from '../../geometry/angle.js';
import type { CutPiece } from '../../parts/tube/cut-list.js';
import type { Joint } from '../../parts/tube/joint.js';
import type { TubeCuts } from '../../parts/tube/tube-cuts.js';
import type { Doc } from '../paper/document.js';
import { type Block, paragraph } from './block.js';
import { pieceAsCut } from './piece-as-cut.js';
import { bothSenses, fixed, lengthLines, lengthWords, type Units } from './sheet-numbers.js';
import { type Cell, type Column, table } from './table.js';

const ticks = (...heads: readonly string[]): Column[] => heads.map((head) => ({ head, align: 'center', fill: 'box' }));

const number = (head: string): Column => ({ head, align: 'right' });

const PIECE_COLUMNS: readonly Column[] = [
  { head: 'piece', align: 'left', key: true },
  { head: 'kind', align: 'left' },
  number('od x wall'),
  number('leg'),
  number('bend deg'),
  number('CLR'),
  number('leg'),
  number('inside arc'),
  number('centre arc'),
  number('outside arc'),
  { head: 'cut length', align: 'right', key: true },
  number('runs to'),
  { head: 'measured', align: 'center', fill: 'field' },
  ...ticks('cut', 'deburred', 'marked', 'tacked', 'checked'),
];

/** The pieces of a tube as they are cut, with room to write what was measured. Lengths in mm. */
export function pieceTable(doc: Doc, cuts: TubeCuts, width: number, units: Units): Block[] {
  const rows = cuts.pieces.map((c): Cell[] => {
    const { legBefore, legAfter, length, end } = pieceAsCut(c, cuts);
    const mm = (value: number | null): Cell => (value === null ? '-' : lengthLines(value, 1, units));
    const leg = (value: number): Cell => (value < 0.05 ? '-' : mm(value));
    return [
      c.piece.name,
      c.piece.kind,
      sizeLines(c, units),
      leg(legBefore),
      c.angle === null ? '-' : fixed(degrees(c.angle), 1),
      mm(c.clr),
      leg(legAfter),
      mm(c.insideArc),
      mm(c.centreArc),
      mm(c.outsideArc),
      mm(length),
      mm(end.run),
      ...Array<string>(6).fill(''),
    ];
  });
  return table(doc, PIECE_COLUMNS, rows, width);
}

const sizeLines = ({ od, wall }: CutPiece, units: Units): readonly string[] => {
  const [a, b] = [lengthLines(od, 1, units), lengthLines(wall, 2, units)];
  return units === 'mm' ? [`${a[0]} x ${b[0]}`] : [`${a[0]} x ${b[0]}`, `${a[1]!.replace(' in', '')} x ${b[1]}`];
};

const JOINT_COLUMNS: readonly Column[] = [
  { head: 'joint', align: 'left', key: true },
  { head: 'kind', align: 'left' },
  { head: 'between', align: 'left' },
  number('running length'),
  { head: 'cw deg', align: 'right', key: true },
  number('or acw deg'),
  number('round the OD'),
  number('root gap'),
  number('shrinkage'),
  number('weld length'),
  { head: 'measured', align: 'center', fill: 'field' },
  ...ticks('tacked', 'welded', 'checked'),
];

/** The joints of a tube. Clocking both ways round, as seen looking along the gas. */
export function jointTable(doc: Doc, cuts: TubeCuts, width: number, units: Units): Block[] {
  const mm = (value: number, digits = 1): Cell => lengthLines(value, digits, units);
  const rows = cuts.joints.map((j): Cell[] => {
    const both = j.clocking === null ? null : bothSenses(j.clocking);
    return [
      j.name,
      j.kind,
      between(j),
      mm(j.run),
      both === null ? '-' : fixed(both.clockwise, 1),
      both === null ? '-' : fixed(both.anticlockwise, 1),
      roundLines(j, units),
      mm(j.gap, 2),
      mm(j.shrinkage, 2),
      mm(j.weldLength),
      '',
      '',
      '',
      '',
    ];
  });
  return table(doc, JOINT_COLUMNS, rows, width);
}

/** The shorter way round the outside, with its sense. */
function roundLines({ clockingRound }: Joint, units: Units): readonly string[] {
  if (clockingRound === null) return ['-'];
  const [mm, ...inch] = lengthLines(Math.abs(clockingRound), 1, units);
  return Number(mm) === 0 ? [mm!] : [`${mm} ${clockingRound > 0 ? 'cw' : 'acw'}`, ...inch];
}

const between = ({ before, after, kind }: Joint): string => `${before ?? kind} to ${after ?? 'collector'}`;

/** What the pieces add up to, and how the joints are read. */
export function tubeSums(doc: Doc, cuts: TubeCuts, width: number, units: Units): Block[] {
  const { start, total, length, target } = cuts;
  const flange = start > 0 ? `${lengthWords(start, 1, units)} of flange, then ` : '';
  const sum = `Sum: ${flange}pieces and gaps to ${lengthWords(total, 2, units)}; route ${lengthWords(length, 2, units)}; target ${lengthWords(target, 2, units)}; difference ${lengthWords(length - target, 3, units)}.`;
  const read =
    'Clocking turns the line of the piece before to that of the piece after, seen looking along the gas: cw clockwise, acw anticlockwise; the shorter way round the OD is given. Running lengths count from the head face, or from the outlet a secondary starts at.';
  return [sum, read].flatMap((line) => paragraph(doc, line, width));
}

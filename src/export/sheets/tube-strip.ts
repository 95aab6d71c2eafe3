import { degrees } from '../../geometry/angle.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { CutPiece } from '../../parts/tube/cut-list.js';
import type { Joint } from '../../parts/tube/joint.js';
import type { TubeCuts } from '../../parts/tube/tube-cuts.js';
import type { Doc } from '../paper/document.js';
import { BODY, LEADING, widthOfWords, words } from '../paper/words.js';
import type { Block } from './block.js';
import { letterOf, pieceAsCut, shortJoint } from './piece-as-cut.js';
import { scaleThatFits, scaleWords } from './scale.js';
import { fixed, lengthLines, type Units } from './sheet-numbers.js';
import { spreadApart } from './spread.js';

/** A label above or below the strip and where on the tube it belongs, mm along the centreline. */
interface StripLabel {
  readonly run: number;
  readonly lines: readonly string[];
  readonly bold: boolean;
}

/** A length of the strip that stands on one row, mm along the centreline. */
interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly pieces: readonly CutPiece[];
  readonly joints: readonly Joint[];
}

/** White between labels, mm. */
const BETWEEN = 3;

/** How far leaders run from the tube to their labels, mm. */
const LEADER = 4;

/** The tube unrolled straight along its centreline, true to scale: its pieces, joints and bends in their places. */
export function tubeStrip(doc: Doc, cuts: TubeCuts, width: number, units: Units): Block[] {
  const rows = stretchesOf(doc, cuts, width, units);
  const longest = Math.max(...rows.map((r) => r.to - r.from));
  const most = Math.max(...cuts.pieces.map((c) => c.od));
  const k = scaleThatFits((s) => longest * s <= width - 8 && most * s <= 16);
  return [legend(scaleWords(k)), ...rows.map((row) => stripRow(doc, cuts, row, k, width, units))];
}

/** As few rows as hold the labels side by side; rows part at joints. */
function stretchesOf(doc: Doc, cuts: TubeCuts, width: number, units: Units): Stretch[] {
  const { pieces, joints } = cuts;
  for (let count = 1; ; count++) {
    const size = Math.ceil(pieces.length / count);
    const rows = Array.from({ length: Math.ceil(pieces.length / size) }, (_, i): Stretch => {
      const own = pieces.slice(i * size, (i + 1) * size);
      const from = i === 0 ? 0 : own[0]!.piece.fromRun;
      return {
        from,
        to: own.at(-1)!.piece.toRun,
        pieces: own,
        joints: joints.slice(i * size, i * size + own.length + 1),
      };
    });
    const holds = (labels: readonly StripLabel[]): boolean =>
      labels.reduce((sum, l) => sum + labelWidth(doc, l), 0) <= width;
    const wide = rows.some((r) => !holds(jointLabels(r, units)) || !holds(pieceLabels(r, cuts, units)));
    if (!wide || size === 1) return rows;
  }
}

const labelWidth = (doc: Doc, { lines, bold }: StripLabel): number =>
  Math.max(...lines.map((l, i) => widthOfWords(doc, l, BODY, bold && i === 0))) + BETWEEN;

const jointLabels = ({ joints }: Stretch, units: Units): StripLabel[] =>
  joints.map((j) => ({ run: j.run, lines: [shortJoint(j), ...lengthLines(j.run, 1, units)], bold: true }));

const pieceLabels = ({ pieces }: Stretch, cuts: TubeCuts, units: Units): StripLabel[] =>
  pieces.map((c) => {
    const arc = (name: string, mm: number): string => `${name} ${lengthLines(mm, 1, units).join(' = ')}`;
    const bend =
      c.angle === null ? [] : [`${fixed(degrees(c.angle), 1)} deg`, arc('out', c.outsideArc!), arc('in', c.insideArc!)];
    return {
      run: (c.piece.fromRun + c.piece.toRun) / 2,
      lines: [`${letterOf(c)}  ${lengthLines(pieceAsCut(c, cuts).length, 1, units).join(' = ')}`, ...bend],
      bold: true,
    };
  });

function legend(scale: string): Block {
  return {
    height: 6,
    keep: true,
    draw: (doc, [x, y]) => {
      const line = `Unrolled along its centreline, ${scale}. Above: joints and running lengths; below: pieces as cut, bends with their arcs outside and inside.`;
      words(doc, line, x, y + 4, BODY);
      const at = x + widthOfWords(doc, line, BODY) + 4;
      straightPattern(doc, [at, y + 1], [8, 3.6]);
      words(doc, 'straight', at + 9.5, y + 4, BODY);
      bendPattern(doc, [at + 25, y + 1], [8, 3.6]);
      words(doc, 'bend', at + 34.5, y + 4, BODY);
    },
  };
}

function stripRow(doc: Doc, cuts: TubeCuts, row: Stretch, k: number, width: number, units: Units): Block {
  const above = jointLabels(row, units);
  const below = pieceLabels(row, cuts, units);
  const most = Math.max(...row.pieces.map((c) => c.od)) * k;
  const up = Math.max(...above.map((l) => l.lines.length)) * LEADING;
  const down = Math.max(...below.map((l) => l.lines.length)) * LEADING;
  const left = (width - (row.to - row.from) * k) / 2;
  return {
    height: up + LEADER + most + LEADER + down + 2,
    draw: (page, [x, y]) => {
      const at = (run: number): number => x + left + (run - row.from) * k;
      const middle = y + up + LEADER + most / 2;
      if (row.from === 0) drawFlange(page, at(0), at(cuts.start), middle, most);
      for (const c of row.pieces) drawPiece(page, c, at, middle, k);
      labelsInRow(doc, above, at, x, width, y, middle - most / 2, -1);
      labelsInRow(doc, below, at, x, width, middle + most / 2 + LEADER, middle + most / 2, 1);
      page.lineWidth(0.15).dash(4, { space: 1.2 });
      page
        .moveTo(at(row.from) - 3, middle)
        .lineTo(at(row.to) + 3, middle)
        .stroke()
        .undash();
    },
  };
}

/** The flange the first piece is welded to. */
function drawFlange(doc: Doc, from: number, to: number, middle: number, height: number): void {
  if (to - from < 0.05) return;
  doc
    .lineWidth(0.3)
    .rect(from, middle - height / 2 - 1.5, to - from, height + 3)
    .fillAndStroke('#bbbbbb', 'black');
  doc.fillColor('black');
}

function drawPiece(doc: Doc, c: CutPiece, at: (run: number) => number, middle: number, k: number): void {
  const { fromRun, toRun } = c.piece;
  const [top, height] = [middle - (c.od * k) / 2, c.od * k];
  const bendFrom = fromRun + c.legBefore;
  const bendTo = toRun - c.legAfter;
  const part = (from: number, to: number, fill: (doc: Doc, at: Vec2, size: Vec2) => void): void => {
    if (to - from > 1e-6) fill(doc, [at(from), top], [at(to) - at(from), height]);
  };
  if (c.angle === null) part(fromRun, toRun, straightPattern);
  else {
    part(fromRun, bendFrom, straightPattern);
    part(bendFrom, bendTo, bendPattern);
    part(bendTo, toRun, straightPattern);
  }
  doc
    .lineWidth(0.45)
    .rect(at(fromRun), top, at(toRun) - at(fromRun), height)
    .stroke();
}

/** Fine lines along the tube. */
function straightPattern(doc: Doc, [x, y]: Vec2, [w, h]: Vec2): void {
  doc.lineWidth(0.1).strokeColor('#777777');
  for (const t of [0.2, 0.35, 0.65, 0.8]) {
    doc
      .moveTo(x, y + t * h)
      .lineTo(x + w, y + t * h)
      .stroke();
  }
  doc.lineWidth(0.2).strokeColor('black').rect(x, y, w, h).stroke();
}

/** Lines on the slant. */
function bendPattern(doc: Doc, [x, y]: Vec2, [w, h]: Vec2): void {
  doc.save().rect(x, y, w, h).clip().lineWidth(0.15).strokeColor('#444444');
  for (let t = -h; t < w; t += 1.6) {
    doc
      .moveTo(x + t, y + h)
      .lineTo(x + t + h, y)
      .stroke();
  }
  doc.restore();
  doc.lineWidth(0.2).strokeColor('black').rect(x, y, w, h).stroke();
}

/** Labels side by side with leaders to their places on the tube: `side` -1 above it, 1 below. */
function labelsInRow(
  doc: Doc,
  labels: readonly StripLabel[],
  at: (run: number) => number,
  x: number,
  width: number,
  top: number,
  tube: number,
  side: -1 | 1,
): void {
  const places = spreadApart(
    labels.map((l) => ({ at: at(l.run), width: labelWidth(doc, l) })),
    x,
    x + width,
  );
  const tallest = Math.max(...labels.map((l) => l.lines.length));
  labels.forEach(({ run, lines, bold }, i) => {
    const first = side === 1 ? top : top + (tallest - lines.length) * LEADING;
    lines.forEach((line, n) => {
      words(doc, line, places[i]!, first + 3.4 + n * LEADING, BODY, 'center', bold && n === 0);
    });
    const end = side === 1 ? top : top + tallest * LEADING + 0.4;
    doc
      .lineWidth(0.15)
      .moveTo(at(run), tube)
      .lineTo(at(run), tube + side * 1.2)
      .lineTo(places[i]!, end)
      .stroke();
  });
}

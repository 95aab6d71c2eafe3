import { type Piece, placeWords, shortNumber } from '../../geometry/contour/contour.js';
import { LEAST_SIDE } from '../../geometry/contour/fit.js';
import { quoted } from '../../geometry/dxf/tags.js';
import { distance2, type Vec2 } from '../../geometry/vec2.js';
import { type LengthUnit, millimetres } from '../units.js';

/** Coordinates beyond this, mm, are no part of a head. */
const LARGEST = 100_000;

/**
 * A point this many times as far from both its neighbours as they are from each other, and as the points usually stand apart,
 * is a slip of the probe.
 */
const STRAY = { times: 5, least: 1 } as const;

interface CsvPoint {
  readonly at: Vec2;
  readonly line: number;
}

/**
 * The closed contour through the points of a CSV: one point `x,y` a line, in order, decimal points; fields parted by commas,
 * semicolons, tabs or blanks; a heading, blank lines and lines that begin with # are passed over. Throws RangeError naming the line.
 */
export function csvPiece(
  text: string,
  unit: LengthUnit,
  most: number,
): { readonly piece: Piece; readonly notes: readonly string[] } {
  const all = pointsOf(text, unit, most);
  const { points, repeated } = withoutRepeats(all);
  if (points.length < 3) throw new RangeError(`it has ${points.length} different points; a port needs three or more`);
  refuseStray(points);
  const sides = points.map(({ at, line }, i) => {
    const to = points[(i + 1) % points.length]!;
    return {
      side: { kind: 'line', from: at, to: to.at } as const,
      name: `the side from line ${line} to ${to.line}`,
      error: 0,
    };
  });
  const notes = repeated.length === 0 ? [] : [repeatNote(repeated)];
  return { piece: { name: `the points from line ${points[0]!.line}`, sides, closed: true }, notes };
}

function pointsOf(text: string, unit: LengthUnit, most: number): readonly CsvPoint[] {
  const points: CsvPoint[] = [];
  let headed = false;
  for (const [i, line] of text.split(/\r\n|\n/).entries()) {
    const content = line.trim();
    if (content === '' || content.startsWith('#')) continue;
    const fields = fieldsOf(content);
    if (!headed && points.length === 0 && fields.every((f) => /[a-z]/i.test(f) && !isNumber(f))) {
      headed = true;
      continue;
    }
    points.push({ at: pointOf(fields, content, i + 1, unit), line: i + 1 });
    if (points.length > most) throw new RangeError(`line ${i + 1}: it has more than ${most} points; thin them out`);
  }
  return points;
}

const isNumber = (text: string): boolean => /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/.test(text);

function fieldsOf(content: string): readonly string[] {
  const parting = [';', '\t', ','].find((sign) => content.includes(sign)) ?? /\s+/;
  return content.split(parting).map((f) => f.trim().replace(/^"(.*)"$/, '$1'));
}

function pointOf(fields: readonly string[], content: string, line: number, unit: LengthUnit): Vec2 {
  const decimalCommas = fields.some((f) => /^[+-]?\d+,\d+$/.test(f));
  if (decimalCommas) throw new RangeError(`line ${line}: expected decimal points, found ${quoted(content)}`);
  if (fields.length !== 2 || !fields.every(isNumber)) {
    throw new RangeError(`line ${line}: expected a point such as 12.5,3.25, found ${quoted(content)}`);
  }
  const [x, y] = fields.map((f) => millimetres(Number(f), unit)) as [number, number];
  if (!(Math.abs(x) <= LARGEST && Math.abs(y) <= LARGEST)) {
    throw new RangeError(`line ${line}: ${quoted(content)} lies too far out for a port`);
  }
  return [x, y];
}

/** Points that do not repeat the one before; the last may not repeat the first, which closes the contour and is no fault. */
function withoutRepeats(all: readonly CsvPoint[]): { points: readonly CsvPoint[]; repeated: readonly number[] } {
  const points: CsvPoint[] = [];
  const repeated: number[] = [];
  for (const p of all) {
    const before = points.at(-1);
    if (before !== undefined && distance2(before.at, p.at) < LEAST_SIDE) repeated.push(p.line);
    else points.push(p);
  }
  while (points.length > 1 && distance2(points[0]!.at, points.at(-1)!.at) < LEAST_SIDE) points.pop();
  return { points, repeated };
}

function repeatNote(lines: readonly number[]): string {
  const listed = lines.slice(0, 10).join(', ');
  const more = lines.length > 10 ? ` and ${lines.length - 10} more` : '';
  return `points within ${LEAST_SIDE} mm of the one before are left out: ${lines.length === 1 ? 'line' : 'lines'} ${listed}${more}`;
}

function refuseStray(points: readonly CsvPoint[]): void {
  if (points.length < 5) return;
  const gaps = points.map((p, i) => distance2(p.at, points[(i + 1) % points.length]!.at)).sort((a, b) => a - b);
  const usual = gaps[Math.floor(gaps.length / 2)]!;
  points.forEach(({ at, line }, i) => {
    const before = points.at(i - 1)!.at;
    const after = points[(i + 1) % points.length]!.at;
    const off = Math.min(distance2(before, at), distance2(at, after));
    const apart = distance2(before, after);
    if (off < STRAY.least || off < STRAY.times * apart || off < STRAY.times * usual) return;
    throw new RangeError(
      `line ${line}: this point at ${placeWords(at)} lies ${shortNumber(off)} mm from its neighbours, which are ${shortNumber(apart)} mm apart: a slip of the probe? take it out`,
    );
  });
}

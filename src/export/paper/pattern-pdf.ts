import { outlineBounds } from '../../geometry/outline/measure.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { lengthWords, sizeWords } from '../../params/faults/wording.js';
import { shortHash } from '../../params/text/plan-hash.js';
import type { Pattern, PatternLine } from '../../parts/patterns/pattern.js';
import type { OutputFile } from '../output-file.js';
import { strokePath } from '../svg/svg-path.js';
import { type Doc, endedBytes, paperDocument } from './document.js';
import { outlinePath } from './draw-outline.js';
import { ACTUAL_SIZE, addTilePages, shows, type TilePrint, tiledPrint, type Window } from './tile-pages.js';
import type { PaperName } from './tiles.js';
import { BODY, widthOfWords, words } from './words.js';

/** What a print says of the plan it belongs to. */
export interface PrintStamp {
  readonly plan: string;
  readonly hash: string;
}

/** White kept round the pattern within the drawing, mm: room for labels beside it. */
const PAD = 4;

/** How each kind of line is drawn: dash and gap, mm; none for a solid line. Told apart without colour. */
export const LINE_STYLE: Readonly<Record<PatternLine['kind'] | 'tab', readonly number[]>> = {
  reference: [],
  quarter: [9, 1.5, 1.5, 1.5],
  bend: [5, 2],
  guide: [1, 1.2],
  tab: [3, 1.5],
};

/** A flat development at 1:1, on as many pages as it takes. The same pattern gives the same bytes. */
export function patternPdf(pattern: Pattern, paper: PaperName, stamp: PrintStamp): OutputFile {
  const doc = paperDocument(`${stamp.plan}: ${pattern.title}`);
  const tiled = tiledPrint(doc, patternPrint(pattern, stamp), paper);
  const count = tiled.tiling.tiles.length;
  addTilePages(doc, tiled, (i) => `page ${i + 1} of ${count}`);
  return { path: `patterns/${pattern.name}.pdf`, kind: 'print', bytes: endedBytes(doc) };
}

/** A pattern as a print at 1:1. */
export function patternPrint(pattern: Pattern, stamp: PrintStamp): TilePrint {
  const boxes = [pattern.outline, ...(pattern.tab === null ? [] : [pattern.tab])].map(outlineBounds);
  const from: Vec2 = [Math.min(...boxes.map((b) => b.from[0])) - PAD, Math.min(...boxes.map((b) => b.from[1])) - PAD];
  const to: Vec2 = [Math.max(...boxes.map((b) => b.to[0])) + PAD, Math.max(...boxes.map((b) => b.to[1])) + PAD];
  return {
    title: pattern.title,
    facts: [`${stamp.plan}, plan ${shortHash(stamp.hash)}`, ...factsOf(pattern), legendOf(pattern)],
    from,
    to,
    up: false,
    checks: [
      ACTUAL_SIZE,
      pattern.use === 'wrap'
        ? 'Check that the ends meet round the tube before you mark. Cut tube has sharp edges: gloves, eyes, ears, lungs.'
        : 'Check the size on the part before you cut. Cut plate has sharp edges: gloves, eyes, ears, lungs; follow local codes.',
    ],
    draw: (doc, shown) => drawPattern(doc, pattern, shown),
  };
}

function factsOf({ outline, tube, plate, count, notes, tab, deviation, units }: Pattern): string[] {
  const { from, to } = outlineBounds(outline);
  const size = `${sizeWords([to[0] - from[0], to[1] - from[1]], units, 2)} without tab`;
  const pieces = `${count} ${count === 1 ? 'piece' : 'pieces'}`;
  const lay =
    tube === null
      ? `Sheet of ${plate === null ? 'plate' : `${lengthWords(plate.thickness, units)} ${plate.material}`}: cut along the thick line, bend or roll at the bend lines.`
      : `Wrap round the ${tube.side} of tube ${sizeWords([tube.od, tube.wall], units)}: the reference line on the tube's clocking mark${tab === null ? '' : ', the tab under the other end'}; mark along the thick edge.`;
  return [`${size}, ${pieces}, drawn to within ${lengthWords(Math.max(deviation, 0.001), units, 3)}`, lay, ...notes];
}

/** The kinds of line that stand on it, in words. */
function legendOf({ lines, tab }: Pattern): string {
  const has = (kind: PatternLine['kind']): boolean => lines.some((l) => l.kind === kind);
  const rows = [
    'thick: cut',
    has('reference') ? 'thin: reference' : null,
    has('quarter') ? 'dash-dot: every 90 degrees' : null,
    has('bend') ? 'long dashes: bend' : null,
    has('guide') ? 'dots: guide' : null,
    tab === null ? null : 'dashes: tab',
  ];
  return `Lines: ${rows.filter((r) => r !== null).join('; ')}.`;
}

function drawPattern(doc: Doc, { outline, holes, tab, lines }: Pattern, shown: Window): void {
  doc.lineJoin('round').lineCap('butt').strokeColor('black').fillColor('black');
  if (tab !== null) styled(doc, 'tab', 0.2, () => outlinePath(doc, tab).stroke());
  for (const line of lines) {
    styled(doc, line.kind, line.kind === 'reference' ? 0.25 : 0.18, () => doc.path(strokePath(line.points)).stroke());
  }
  doc.lineWidth(0.4);
  for (const o of [outline, ...holes]) outlinePath(doc, o).stroke();
  labelLines(doc, lines, shown);
}

function styled(doc: Doc, kind: keyof typeof LINE_STYLE, width: number, draw: () => void): void {
  const dash = LINE_STYLE[kind];
  doc.lineWidth(width);
  // Its types know one dash and one gap; the library and the standard (ISO 32000-1, 8.4.3.6) take any run of them.
  if (dash.length > 0) doc.dash(dash as unknown as number, {});
  draw();
  doc.undash();
}

/** Where along its line a label may stand, the best first. */
const ALONG = [0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9];

/** A label along each line where the page shows it, read from the side that is nearer upright, clear of those before it. */
function labelLines(doc: Doc, lines: readonly PatternLine[], shown: Window): void {
  const placed: { readonly at: Vec2; readonly reach: number }[] = [];
  for (const { points, label } of lines) {
    if (label === '') continue;
    const [a, b] = longestSide(points);
    const turn = Math.atan2(b[1] - a[1], b[0] - a[0]);
    const width = widthOfWords(doc, label, BODY);
    const [c, s] = [Math.abs(Math.cos(turn)), Math.abs(Math.sin(turn))];
    const box: Vec2 = [width * c + 9 * s, width * s + 9 * c];
    const at = ALONG.map((t): Vec2 => [a[0] + (b[0] - a[0]) * t, a[1] + (b[1] - a[1]) * t]).find(
      (p) =>
        shows(shown, p, box) &&
        placed.every((q) => Math.hypot(p[0] - q.at[0], p[1] - q.at[1]) > (width + q.reach) / 2 + 1),
    );
    if (at === undefined) continue;
    placed.push({ at, reach: width });
    const upright = Math.abs(turn) > Math.PI / 2 + 1e-9 ? turn + Math.PI : turn;
    doc
      .save()
      .translate(at[0], -at[1])
      .rotate((-upright * 180) / Math.PI);
    words(doc, label, 0, -0.9, BODY, 'center');
    doc.restore();
  }
}

/** The longest straight run of a line. */
function longestSide(points: readonly Vec2[]): readonly [Vec2, Vec2] {
  const sides = points.slice(1).map((p, i): readonly [Vec2, Vec2] => [points[i]!, p]);
  const long = ([a, b]: readonly [Vec2, Vec2]): number => Math.hypot(b[0] - a[0], b[1] - a[1]);
  return sides.reduce((x, y) => (long(y) > long(x) + 1e-9 ? y : x));
}

import PDFDocument from 'pdfkit';
import type { Outline } from '../geometry/outline.js';
import { splitArcs } from '../geometry/outline-make.js';
import { outlineBounds } from '../geometry/outline-measure.js';
import type { Vec2 } from '../geometry/vec2.js';
import { middleOf } from '../parts/plates/engraving.js';
import type { FlatHole, FlatPart } from '../parts/plates/flat-part.js';
import { asciiWords } from './dxf.js';
import type { OutputFile } from './output-file.js';
import { OVERLAP, type PAPER, STRIP, type Tile, type Tiling, tilingOf, WHITE } from './print-tiles.js';
import { strokePath, svgPath } from './svg-path.js';

type Doc = InstanceType<typeof PDFDocument>;

/** Points of a millimetre. */
const POINT = 72 / 25.4;

/** White kept round the part within the drawing, mm. */
const PAD = 3;

/** Length of the check rulers, mm. */
const RULER = 100;

/** Arcs are handed over in pieces of at most this, rad: a cubic curve then strays less than 5e-6 of the radius. */
const MOST_ARC = Math.PI / 4;

/** A file of today is the file of tomorrow: no clock. */
const NO_DATE = new Date(0);

/**
 * A flat part at 1:1 to lay on the real thing, on as many pages as it takes: a ruler on both axes of every page; where pages join,
 * lines to cut along, crosses to lay on each other, and a map. The same part gives the same bytes.
 */
export function flatPdf(part: FlatPart, paper: keyof typeof PAPER): OutputFile {
  const { from, to } = outlineBounds(part.region.outer);
  const tiling = tilingOf([from[0] - PAD, from[1] - PAD], [to[0] + PAD, to[1] + PAD], paper);
  const size: [number, number] = [tiling.page[0] * POINT, tiling.page[1] * POINT];
  const doc = new PDFDocument({
    size,
    margin: 0,
    compress: false,
    autoFirstPage: false,
    info: {
      Title: asciiWords(part.title),
      Creator: 'evenrun',
      Producer: 'evenrun',
      CreationDate: NO_DATE,
      ModDate: NO_DATE,
    },
  });
  for (const tile of tiling.tiles) {
    doc.addPage({ size, margin: 0 });
    doc.save().scale(POINT);
    drawPart(doc, part, tiling, tile);
    drawFrame(doc, part, tiling, tile);
    doc.restore();
  }
  doc.end();
  return { path: `${part.path}.pdf`, kind: 'print', bytes: bytesOf(doc) };
}

/** All that was written: the library holds it in memory once the document has ended. */
function bytesOf(doc: Doc): Uint8Array {
  const chunks: Uint8Array[] = [];
  for (let chunk = doc.read() as Uint8Array | null; chunk !== null; chunk = doc.read() as Uint8Array | null) {
    chunks.push(chunk);
  }
  return new Uint8Array(Buffer.concat(chunks));
}

/** Upper left corner of the drawing's room on a page, mm. */
const CORNER: Vec2 = [WHITE + STRIP.left, WHITE + STRIP.top];

/** The part within the tile's window. From here to the end y runs down the page and lengths are mm. */
function drawPart(doc: Doc, part: FlatPart, tiling: Tiling, { from }: Tile): void {
  const [w, h] = tiling.window;
  const { outer, openings, slots, holes } = part.region;
  doc.save().rect(CORNER[0], CORNER[1], w, h).clip();
  doc.translate(CORNER[0] - from[0], CORNER[1] + h + from[1]);
  doc.lineJoin('round').strokeColor('black').lineWidth(0.3);
  for (const o of [outer, ...openings.map((one) => one.outline), ...slots]) contour(doc, o);
  for (const one of holes) drawHole(doc, one);
  doc.lineWidth(0.15).strokeColor('#555555');
  for (const { face, outline } of part.blends) {
    contour(doc.dash(face === 'seen' ? 3 : 1, { space: 1 }), outline).undash();
  }
  for (const stroke of part.engraving) doc.path(strokePath(stroke)).stroke();
  for (const { outline, label } of openings) {
    const [x, y] = middleOf(outline);
    centre(doc, [x, -y], 8);
    if (label !== '') words(doc, label, x + 2, -y - 2, 4);
  }
  drawJoints(doc, tiling);
  doc.restore();
}

const contour = (doc: Doc, outline: Outline): Doc => doc.path(svgPath(splitArcs(outline, MOST_ARC))).stroke();

function drawHole(doc: Doc, { at, outline }: FlatHole): void {
  doc.lineWidth(0.25);
  contour(doc, outline);
  const { from, to } = outlineBounds(outline);
  centre(doc, [at[0], -at[1]], (to[0] - from[0]) / 2 + 2);
}

/** A thin cross on the middle of something. */
function centre(doc: Doc, [x, y]: Vec2, arm: number): void {
  doc.save().lineWidth(0.1).strokeColor('#555555');
  doc.moveTo(x - arm, y).lineTo(x + arm, y);
  doc
    .moveTo(x, y - arm)
    .lineTo(x, y + arm)
    .stroke()
    .restore();
}

/** Lines to cut along in the middle of every shared strip, and crosses on them that neighbours have in common. */
function drawJoints(doc: Doc, { joints, tiles, window }: Tiling): void {
  const spots = (k: 0 | 1): number[] => [0.25, 0.75].flatMap((t) => tiles.map((tile) => tile.from[k] + t * window[k]));
  const distinct = (values: readonly number[]): number[] => [...new Set(values.map((v) => Math.round(v * 1e6) / 1e6))];
  const FAR = 1e4;
  doc.save().lineWidth(0.15).strokeColor('#0b5cad').dash(3, { space: 2 });
  for (const x of joints.x) doc.moveTo(x, -FAR).lineTo(x, FAR).stroke();
  for (const y of joints.y) doc.moveTo(-FAR, -y).lineTo(FAR, -y).stroke();
  doc.undash();
  for (const x of joints.x) for (const y of distinct(spots(1))) register(doc, [x, -y]);
  for (const y of joints.y) for (const x of distinct(spots(0))) register(doc, [x, -y]);
  doc.restore();
}

/** A cross in a ring. */
function register(doc: Doc, [x, y]: Vec2): void {
  const arm = OVERLAP / 2 - 0.5;
  doc.circle(x, y, arm / 2);
  doc.moveTo(x - arm, y).lineTo(x + arm, y);
  doc
    .moveTo(x, y - arm)
    .lineTo(x, y + arm)
    .stroke();
}

/** Title, rulers, cautions and the map of tiles round the drawing. */
function drawFrame(doc: Doc, part: FlatPart, tiling: Tiling, tile: Tile): void {
  const [width, height] = tiling.page;
  const page = tiling.tiles.indexOf(tile) + 1;
  const several = tiling.tiles.length > 1;
  doc.lineWidth(0.1).strokeColor('#999999').rect(CORNER[0], CORNER[1], tiling.window[0], tiling.window[1]).stroke();
  doc.strokeColor('black').fillColor('black');
  words(doc, part.title, CORNER[0], WHITE + 4, 4, 'left', true);
  const where = `page ${page} of ${tiling.tiles.length}${several ? `, tile ${tile.name}` : ''}`;
  words(doc, where, width - WHITE, WHITE + 4, 3.2, 'right');
  const stock = `${Number(part.thickness.toFixed(3))} mm ${part.material}, ${part.size.map((s) => s.toFixed(2)).join(' x ')} mm, ${part.belongs}, ${part.seen}`;
  words(doc, stock, CORNER[0], WHITE + 7.8, 2.6);
  const floor = CORNER[1] + tiling.window[1];
  levelRuler(doc, [CORNER[0], floor + 7]);
  uprightRuler(doc, [WHITE + 7, floor - 2]);
  upArrow(doc, [WHITE + 5, CORNER[1] + 3]);
  cautions(doc, [CORNER[0], floor + 16], several);
  if (several) map(doc, tiling, tile, [width - WHITE, height - WHITE]);
}

/** Where the ticks of a ruler stand along it, mm, and how long they are. */
const TICKS = Array.from({ length: RULER / 5 + 1 }, (_, i) => ({
  at: 5 * i,
  long: i % 10 === 0 ? 4 : i % 2 === 0 ? 2.6 : 1.6,
}));

function levelRuler(doc: Doc, [x, y]: Vec2): void {
  doc
    .lineWidth(0.15)
    .moveTo(x, y)
    .lineTo(x + RULER, y)
    .stroke();
  for (const { at, long } of TICKS) {
    doc
      .moveTo(x + at, y)
      .lineTo(x + at, y - long)
      .stroke();
    if (at % 50 === 0) words(doc, String(at), x + at + 0.8, y - 2.2, 2.2);
  }
  words(doc, `${RULER} mm across`, x + RULER / 4, y + 3.2, 2.6, 'center');
}

function uprightRuler(doc: Doc, [x, y]: Vec2): void {
  doc
    .lineWidth(0.15)
    .moveTo(x, y)
    .lineTo(x, y - RULER)
    .stroke();
  for (const { at, long } of TICKS) {
    doc
      .moveTo(x, y - at)
      .lineTo(x + long, y - at)
      .stroke();
    if (at % 50 === 0) words(doc, String(at), x + 2.2, y - at - 0.8, 2.2);
  }
  doc
    .save()
    .translate(x - 1.4, y - RULER / 4)
    .rotate(-90);
  words(doc, `${RULER} mm up`, 0, 0, 2.6, 'center');
  doc.restore();
}

function upArrow(doc: Doc, [x, y]: Vec2): void {
  doc
    .lineWidth(0.3)
    .moveTo(x, y + 12)
    .lineTo(x, y)
    .stroke();
  doc
    .moveTo(x - 1.5, y + 4)
    .lineTo(x, y)
    .lineTo(x + 1.5, y + 4)
    .stroke();
  words(doc, 'UP', x, y + 16, 3, 'center');
}

const CHECK = [
  'Print at 100 % (actual size), never fitted to the page. Lay a steel rule on both rulers: each must be 100 mm.',
  'Lay it on the part itself before cutting: ports and bolts as measured decide. Cut parts have sharp edges; follow local codes.',
];

function cautions(doc: Doc, [x, y]: Vec2, several: boolean): void {
  const join = `Tiles share ${OVERLAP} mm: cut one along the dashed line and lay its crosses on those of the next.`;
  const lines = several ? [join, ...CHECK] : CHECK;
  lines.forEach((line, i) => {
    words(doc, line, x, y + 3.2 * i, 2.3);
  });
}

/** Which tile this is among all; `corner` is the lower right corner, mm. */
function map(doc: Doc, { columns, rows, tiles, page }: Tiling, tile: Tile, corner: Vec2): void {
  const cell = Math.min(14 / rows, 7, (0.2 * page[0]) / columns);
  const size: Vec2 = [cell * (page[0] < page[1] ? 0.8 : 1.2), cell];
  const from: Vec2 = [corner[0] - columns * size[0], corner[1] - STRIP.bottom + 3];
  doc.lineWidth(0.15);
  for (const t of tiles) {
    const [x, y] = [from[0] + t.column * size[0], from[1] + t.row * size[1]];
    doc.rect(x, y, size[0], size[1]);
    if (t === tile) doc.fillAndStroke('#bbbbbb', 'black');
    else doc.stroke();
    doc.fillColor('black');
    words(doc, t.name, x + size[0] / 2, y + size[1] / 2 + cell * 0.14, Math.min(cell * 0.42, 2.6), 'center');
  }
}

/** A line of words on a baseline. */
function words(
  doc: Doc,
  line: string,
  x: number,
  y: number,
  size: number,
  align: 'left' | 'center' | 'right' = 'left',
  bold = false,
): void {
  const plain = asciiWords(line);
  doc.font(bold ? 'Helvetica-Bold' : 'Helvetica').fontSize(size);
  const back = align === 'left' ? 0 : doc.widthOfString(plain) * (align === 'right' ? 1 : 0.5);
  doc.text(plain, x - back, y, { lineBreak: false, baseline: 'alphabetic' });
}

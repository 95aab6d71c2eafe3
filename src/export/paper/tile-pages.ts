import { length2, type Vec2 } from '../../geometry/vec2.js';
import { addPage, type Doc } from './document.js';
import { levelRuler, uprightRuler } from './ruler.js';
import { tileMap } from './tile-map.js';
import { OVERLAP, type PaperName, STRIP, type Strip, type Tile, type Tiling, tilingOf, WHITE } from './tiles.js';
import { BODY, KEY, LEADING, words, wrapped } from './words.js';

/** What a tile shows of the drawing, mm, y up. */
export interface Window {
  readonly from: Vec2;
  readonly to: Vec2;
}

/** True when a box about a point lies within a window. */
export const shows = ({ from, to }: Window, [x, y]: Vec2, [w, h]: Vec2): boolean =>
  x - w / 2 >= from[0] && y - h / 2 >= from[1] && x + w / 2 <= to[0] && y + h / 2 <= to[1];

/** Something printed at 1:1 on as many pages as it takes. */
export interface TilePrint {
  readonly title: string;
  /** What stands under the title. */
  readonly facts: readonly string[];
  /** Box of the drawing, mm, y up. */
  readonly from: Vec2;
  readonly to: Vec2;
  /** True where the drawing has a way up that matters. */
  readonly up: boolean;
  /** What stands below the rulers. */
  readonly checks: readonly string[];
  /** Draws it, in mm with y down the page. Lines beyond what the tile shows are cut away; words had better stand wholly within. */
  readonly draw: (doc: Doc, shown: Window) => void;
}

/** How a print is spread over pages of a paper, and the lines above it. */
export interface TiledPrint {
  readonly print: TilePrint;
  readonly tiling: Tiling;
  readonly strip: Strip;
  readonly title: readonly string[];
  readonly facts: readonly string[];
}

/** Room for 'page 10 of 12, tile A1' beside the title, mm. */
const WHERE = 48;

/** Said on every print at 1:1. */
export const ACTUAL_SIZE =
  'Print at 100 % (actual size), never fitted to the page. Lay a steel rule on both rulers: each must be 100 mm.';

/** Spreads a print over the fewest pages. */
export function tiledPrint(doc: Doc, print: TilePrint, paper: PaperName): TiledPrint {
  const narrow = tilingOf([0, 0], [1, 1], paper).window[0];
  const title = wrapped(doc, print.title, narrow - WHERE, KEY, true);
  const facts = print.facts.flatMap((line) => wrapped(doc, line, narrow, BODY));
  const strip = { ...STRIP, top: STRIP.top + 5 * (title.length - 1) + LEADING * Math.max(facts.length - 1, 0) };
  return { print, tiling: tilingOf(print.from, print.to, paper, strip), strip, title, facts };
}

/** Adds the pages of a print: a ruler on both axes of every page; where pages join, lines to cut along, crosses to lay on each other and a map. `page` gives the words of a tile's page number. */
export function addTilePages(doc: Doc, tiled: TiledPrint, page: (tile: number) => string): void {
  const { tiling, print, strip } = tiled;
  const corner: Vec2 = [WHITE + strip.left, WHITE + strip.top];
  tiling.tiles.forEach((tile, i) => {
    addPage(doc, tiling.page, () => {
      const [w, h] = tiling.window;
      doc.save().rect(corner[0], corner[1], w, h).clip();
      doc.translate(corner[0] - tile.from[0], corner[1] + h + tile.from[1]);
      print.draw(doc, { from: tile.from, to: [tile.from[0] + w, tile.from[1] + h] });
      drawJoints(doc, tiling);
      doc.restore();
      drawFrame(doc, tiled, tile, corner, page(i));
    });
  });
}

/** Lines to cut along in the middle of every shared strip, and crosses on them that neighbours have in common. */
function drawJoints(doc: Doc, { joints, tiles, window }: Tiling): void {
  const spots = (k: 0 | 1): number[] => [0.25, 0.75].flatMap((t) => tiles.map((tile) => tile.from[k] + t * window[k]));
  const distinct = (values: readonly number[]): number[] => [...new Set(values.map((v) => Math.round(v * 1e6) / 1e6))];
  const FAR = 1e4;
  doc.save().lineWidth(0.15).strokeColor('#555555').dash(3, { space: 2 });
  for (const x of joints.x) doc.moveTo(x, -FAR).lineTo(x, FAR).stroke();
  for (const y of joints.y) doc.moveTo(-FAR, -y).lineTo(FAR, -y).stroke();
  doc.undash();
  for (const x of joints.x) for (const y of distinct(spots(1))) register(doc, [x, -y]);
  for (const y of joints.y) for (const x of distinct(spots(0))) register(doc, [x, -y]);
  doc.restore();
}

/** A cross in a ring. */
function register(doc: Doc, at: Vec2): void {
  const arm = OVERLAP / 2 - 0.5;
  doc.circle(at[0], at[1], arm / 2);
  crossAt(doc, at, arm);
}

/** A cross of two lines, mm. */
export function crossAt(doc: Doc, [x, y]: Vec2, arm: number): void {
  doc.moveTo(x - arm, y).lineTo(x + arm, y);
  doc
    .moveTo(x, y - arm)
    .lineTo(x, y + arm)
    .stroke();
}

/** Title, rulers, cautions and the map of tiles round the drawing. */
function drawFrame(
  doc: Doc,
  { print, tiling, title, facts }: TiledPrint,
  tile: Tile,
  corner: Vec2,
  page: string,
): void {
  const width = tiling.page[0];
  const several = tiling.tiles.length > 1;
  doc.lineWidth(0.1).strokeColor('#999999').rect(corner[0], corner[1], tiling.window[0], tiling.window[1]).stroke();
  doc.strokeColor('black').fillColor('black');
  title.forEach((line, i) => {
    words(doc, line, corner[0], WHITE + 4 + 5 * i, KEY, 'left', true);
  });
  words(doc, `${page}${several ? `, tile ${tile.name}` : ''}`, width - WHITE, WHITE + 4, BODY, 'right');
  facts.forEach((line, i) => {
    words(doc, line, corner[0], WHITE + 8 + 5 * (title.length - 1) + LEADING * i, BODY);
  });
  const floor = corner[1] + tiling.window[1];
  levelRuler(doc, [corner[0], floor + 7]);
  uprightRuler(doc, [WHITE + 7, floor - 2]);
  if (print.up) upArrow(doc, [WHITE + 5, corner[1] + 3]);
  if (several) tileMap(doc, tiling, tile, [width - WHITE, floor + 1.5], [tiling.window[0] - 112, 11]);
  const join = `Tiles share ${OVERLAP} mm: cut one along the dashed line and lay its crosses on those of the next.`;
  const lines = [...(several ? [join] : []), ...print.checks].flatMap((l) => wrapped(doc, l, tiling.window[0], BODY));
  lines.forEach((line, i) => {
    words(doc, line, corner[0], floor + 16 + 4 * i, BODY);
  });
}

function upArrow(doc: Doc, at: Vec2): void {
  arrow(doc, [at[0], at[1] + 12], at);
  words(doc, 'UP', at[0], at[1] + 16, BODY, 'center');
}

/** A line with a tip of two strokes at its end. */
export function arrow(doc: Doc, from: Vec2, to: Vec2, tip = 4): void {
  const [dx, dy] = [to[0] - from[0], to[1] - from[1]];
  const l = length2([dx, dy]);
  const [ux, uy] = [(dx / l) * tip, (dy / l) * tip];
  doc
    .lineWidth(0.3)
    .moveTo(from[0], from[1])
    .lineTo(to[0], to[1])
    .moveTo(to[0] - ux - 0.375 * uy, to[1] - uy + 0.375 * ux)
    .lineTo(to[0], to[1])
    .lineTo(to[0] - ux + 0.375 * uy, to[1] - uy - 0.375 * ux)
    .stroke();
}

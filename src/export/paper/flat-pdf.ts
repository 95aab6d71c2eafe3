import { outlineBounds } from '../../geometry/outline/measure.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { lengthWords, sizeWords } from '../../params/faults/wording.js';
import { middleOf } from '../../parts/plates/engraving.js';
import type { FlatHole, FlatPart } from '../../parts/plates/flat-part.js';
import type { OutputFile } from '../output-file.js';
import { strokePath } from '../svg/svg-path.js';
import { type Doc, endedBytes, paperDocument } from './document.js';
import { outlinePath } from './draw-outline.js';
import { ACTUAL_SIZE, addTilePages, crossAt, shows, type TilePrint, tiledPrint, type Window } from './tile-pages.js';
import type { PaperName } from './tiles.js';
import { widthOfWords, words } from './words.js';

/** White kept round the part within the drawing, mm. */
const PAD = 3;

/**
 * A flat part at 1:1 to lay on the real thing, on as many pages as it takes: a ruler on both axes of every page; where pages join,
 * lines to cut along, crosses to lay on each other, and a map. The same part gives the same bytes.
 */
export function flatPdf(part: FlatPart, paper: PaperName): OutputFile {
  const doc = paperDocument(part.title);
  const tiled = tiledPrint(doc, flatPrint(part), paper);
  const count = tiled.tiling.tiles.length;
  addTilePages(doc, tiled, (i) => `page ${i + 1} of ${count}`);
  return { path: `${part.path}.pdf`, kind: 'print', bytes: endedBytes(doc) };
}

const flatPrint = (part: FlatPart): TilePrint => {
  const { from, to } = outlineBounds(part.region.outer);
  const { units } = part;
  return {
    title: part.title,
    facts: [
      `${lengthWords(part.thickness, units)} ${part.material}, ${sizeWords(part.size, units, 2)}, ${part.belongs}, ${part.seen}`,
    ],
    from: [from[0] - PAD, from[1] - PAD],
    to: [to[0] + PAD, to[1] + PAD],
    up: true,
    checks: [
      ACTUAL_SIZE,
      'Lay it on the part itself before cutting: ports and bolts as measured decide. Cut parts have sharp edges; follow local codes.',
    ],
    draw: (doc, shown) => drawPart(doc, part, shown),
  };
};

function drawPart(doc: Doc, part: FlatPart, shown: Window): void {
  const { outer, openings, slots, holes } = part.region;
  doc.lineJoin('round').strokeColor('black').lineWidth(0.3);
  for (const o of [outer, ...openings.map((one) => one.outline), ...slots]) outlinePath(doc, o).stroke();
  for (const one of holes) drawHole(doc, one);
  doc.lineWidth(0.15).strokeColor('#555555');
  for (const { face, outline } of part.blends) {
    outlinePath(doc.dash(face === 'seen' ? 3 : 1, { space: 1 }), outline)
      .stroke()
      .undash();
  }
  for (const stroke of part.engraving) doc.path(strokePath(stroke)).stroke();
  for (const { outline, label } of openings) {
    const [x, y] = middleOf(outline);
    thinCross(doc, x, -y, 8);
    const size: Vec2 = [widthOfWords(doc, label, 4), 4];
    if (label !== '' && shows(shown, [x + 2 + size[0] / 2, y + 4], size)) words(doc, label, x + 2, -y - 2.6, 4);
  }
}

function drawHole(doc: Doc, { at, outline }: FlatHole): void {
  doc.lineWidth(0.25);
  outlinePath(doc, outline).stroke();
  const { from, to } = outlineBounds(outline);
  thinCross(doc, at[0], -at[1], (to[0] - from[0]) / 2 + 2);
}

/** A thin cross on the middle of something. */
function thinCross(doc: Doc, x: number, y: number, arm: number): void {
  doc.save().lineWidth(0.1).strokeColor('#555555');
  crossAt(doc, [x, y], arm);
  doc.restore();
}

import type { Outline } from '../../geometry/outline/outline.js';
import { lengthWords, sizeWords } from '../../params/faults/wording.js';
import { middleOf } from '../../parts/plates/engraving.js';
import { onSheet, pointOnSheet, type Sheet, type SheetPiece } from '../../parts/plates/sheet.js';
import { piecesOn } from '../dxf/sheet-dxf.js';
import { type OutputFile, textFile } from '../output-file.js';
import { plainNumber } from '../plain-number.js';
import { xmlText } from '../xml-text.js';
import { strokePath, svgPath } from './svg-path.js';

/** Space round the sheet, mm. */
const MARGIN = 12;

/** Height of words, from a sheet's size: a sheet of 1 m has words of 14 mm. */
const wordsFor = (size: number): number => Math.max(4, size * 0.014);

/** A sheet with its parts as a picture in mm. */
export function sheetSvg(sheet: Sheet): OutputFile {
  const [width, height] = sheet.size;
  const words = wordsFor(Math.max(width, height));
  const rows = [
    `${lengthWords(sheet.thickness, sheet.units)} ${sheet.material}, ${sizeWords(sheet.size, sheet.units)}`,
    ...piecesOn(sheet).map(({ name, count }) => `${count} x ${name}`),
  ];
  const below = 1.6 * words * (rows.length + 0.5);
  const wide = Math.max(width, ...rows.map((r) => r.length * words * 0.55));
  const box = [-MARGIN, -height - MARGIN, wide + 2 * MARGIN, height + below + 2 * MARGIN].map(mm);
  const stroke = plainNumber(words * 0.09, 2);
  const lines = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${box[2]}mm" height="${box[3]}mm" viewBox="${box.join(' ')}">`,
    `<title>${xmlText(sheet.name)}</title>`,
    `<style>text{font-family:sans-serif;font-size:${mm(words)}px;fill:#222}.outer{fill:#e9edf1;stroke:#111;stroke-width:${stroke}}.inner{fill:#fff;stroke:#0b5cad;stroke-width:${stroke}}.drill{fill:#fff;stroke:#b3261e;stroke-width:${stroke};stroke-dasharray:1.2 .8}.engrave{fill:none;stroke:#6b2fa0;stroke-width:${stroke}}</style>`,
    `<rect x="${box[0]}" y="${box[1]}" width="${box[2]}" height="${box[3]}" fill="#fff"/>`,
    `<rect x="0" y="${mm(-height)}" width="${mm(width)}" height="${mm(height)}" fill="none" stroke="#777" stroke-width="${stroke}" stroke-dasharray="6 2"/>`,
    ...sheet.pieces.flatMap((p) => pieceLines(p, words)),
    ...rows.map((row, i) => `<text x="0" y="${mm(1.6 * words * (i + 1))}">${xmlText(row)}</text>`),
    '</svg>',
  ];
  return textFile(`${sheet.name}.svg`, 'picture', `${lines.join('\n')}\n`);
}

const mm = (value: number): number => plainNumber(value, 4);

function pieceLines(piece: SheetPiece, words: number): string[] {
  const { cut, engraving, name } = piece.part;
  const path = (style: string, o: Outline): string => `<path class="${style}" d="${svgPath(onSheet(piece, o))}"/>`;
  const [x, y] = middleOf(onSheet(piece, cut.outer));
  const label =
    engraving.length > 0
      ? []
      : [`<text x="${mm(x)}" y="${mm(-y + words / 3)}" text-anchor="middle">${xmlText(name)}</text>`];
  return [
    path('outer', cut.outer),
    ...[...cut.openings.map((o) => o.outline), ...cut.slots].map((o) => path('inner', o)),
    ...cut.holes.map((h) => path(h.drill ? 'drill' : 'inner', h.outline)),
    ...engraving.map((s) => `<path class="engrave" d="${strokePath(s.map((p) => pointOnSheet(piece, p)))}"/>`),
    ...label,
  ];
}

import { rectangleOutline } from '../../geometry/outline/make.js';
import { translateOutline } from '../../geometry/outline/transform.js';
import { lengthWords, sizeWords } from '../../params/faults/wording.js';
import { onSheet, pointOnSheet, type Sheet } from '../../parts/plates/sheet.js';
import { type OutputFile, textFile } from '../output-file.js';
import { type DxfEntity, type DxfLayer, type DxfOptions, USUAL_DXF } from './drawing.js';
import { asciiWords, dxfText } from './dxf.js';
import { FLAT_LAYERS, partEntities, reference } from './flat-dxf.js';

const LAYERS = [...FLAT_LAYERS, { name: 'SHEET', colour: 'yellow' }] as const satisfies readonly DxfLayer[];

const WORDS = 6;

/** Parts laid out on a sheet as one DXF, with the layers of the parts; the sheet's edge and the notes are not cut. */
export function sheetDxf(sheet: Sheet, options: DxfOptions = USUAL_DXF): OutputFile {
  const [width, height] = sheet.size;
  const entities: DxfEntity[] = [
    ...sheet.pieces.flatMap((piece) =>
      partEntities(piece.part, { outline: (o) => onSheet(piece, o), point: (p) => pointOnSheet(piece, p) }),
    ),
    {
      layer: 'SHEET',
      kind: 'outline',
      outline: translateOutline(rectangleOutline(width, height), [width / 2, height / 2]),
    },
    ...reference([0, -12], options.units),
    ...sheetNotes(sheet, options).map((words, i): DxfEntity => {
      return { layer: 'NOTES', kind: 'text', at: [0, -32 - 1.8 * WORDS * i], words: asciiWords(words), height: WORDS };
    }),
  ];
  const text = dxfText({ layers: LAYERS, entities }, options);
  return textFile(`${sheet.name}.dxf`, 'sheet-drawing', text);
}

function sheetNotes(sheet: Sheet, { units }: DxfOptions): string[] {
  const compensated = sheet.pieces.some((p) => p.part.kerf.compensated);
  return [
    `${lengthWords(sheet.thickness, sheet.units)} ${sheet.material}, sheet ${sizeWords(sheet.size, units, units === 'mm' ? 2 : 1)}, 1:1, drawn in ${units}`,
    ...piecesOn(sheet).map(({ name, count }) => `${count} x ${name}`),
    compensated
      ? 'Kerf: COMPENSATED. Switch kerf off at the cutter'
      : 'Kerf: NOT COMPENSATED. Set the kerf at the cutter',
    'SHEET and NOTES are not cut',
  ];
}

/** How many of each part lie on a sheet. */
export function piecesOn({ pieces }: Sheet): readonly { readonly name: string; readonly count: number }[] {
  const names = pieces.map((p) => p.part.name);
  return [...new Set(names)].map((name) => ({ name, count: names.filter((n) => n === name).length }));
}

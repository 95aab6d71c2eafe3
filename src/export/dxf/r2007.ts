import Drawing from 'dxf-writer';
import handle from 'dxf-writer/src/Handle.js';
import type { DxfShape } from './shapes.js';
import type { DxfSheet } from './sheet.js';

const LIBRARY_UNIT = { mm: 'Millimeters', in: 'Inches' } as const;

/** The drawing as DXF of version AC1021, the same bytes for the same drawing. Group codes: Autodesk DXF reference. */
export function r2007Text(sheet: DxfSheet): string {
  // The library counts handles through the whole process; begun anew, the same drawing gives the same file.
  handle.seed = 0;
  const writer = new Drawing();
  writer.setUnits(LIBRARY_UNIT[sheet.units]);
  writer.header('MEASUREMENT', [[70, sheet.units === 'mm' ? 1 : 0]]);
  writer.header('EXTMIN', corner(sheet.from));
  writer.header('EXTMAX', corner(sheet.to));
  for (const { name, colour } of sheet.layers) writer.addLayer(name, colour, 'CONTINUOUS');
  for (const { layer, shape } of sheet.shapes) {
    writer.setActiveLayer(layer);
    draw(writer, shape);
  }
  return `${inOrder(writer.toDxfString())}\n`;
}

const corner = ([x, y]: DxfSheet['from']): [number, number][] => [
  [10, x],
  [20, y],
  [30, 0],
];

function draw(writer: Drawing, s: DxfShape): void {
  switch (s.kind) {
    case 'polyline':
      // The library's types leave out the bulge its own comment names.
      writer.drawPolyline(s.vertices.map((v) => [...v]) as unknown as [number, number][], s.closed);
      return;
    case 'circle':
      writer.drawCircle(s.centre[0], s.centre[1], s.radius);
      return;
    case 'line':
      writer.drawLine(s.from[0], s.from[1], s.to[0], s.to[1]);
      return;
    case 'arc':
      writer.drawArc(s.centre[0], s.centre[1], s.radius, s.start, s.end);
      return;
    case 'point':
      writer.drawPoint(s.at[0], s.at[1]);
      return;
    case 'text':
      writer.drawText(s.at[0], s.at[1], s.height, 0, s.words, s.align);
  }
}

/** Codes that belong to every entity, where the library writes them after the mark of the entity's own kind. */
const COMMON_CODES = new Set(['6', '8', '62', '370']);

/** The file with layer, line type and colour under AcDbEntity, as the DXF reference has them, and the handle seed above all handles. */
function inOrder(text: string): string {
  const lines = text.split('\n');
  const pairs = Array.from({ length: lines.length / 2 }, (_, i) => ({ code: lines[2 * i]!, value: lines[2 * i + 1]! }));
  const ordered: { code: string; value: string }[] = [];
  let inEntities = false;
  let commonAt = -1;
  for (const pair of pairs) {
    if (pair.code === '2' && ordered[ordered.length - 1]?.value === 'SECTION') inEntities = pair.value === 'ENTITIES';
    if (pair.code === '0') commonAt = -1;
    if (inEntities && commonAt >= 0 && COMMON_CODES.has(pair.code)) ordered.splice(commonAt++, 0, pair);
    else ordered.push(pair);
    if (pair.code === '100' && pair.value === 'AcDbEntity') commonAt = ordered.length;
  }
  const seed = ordered.findIndex((p) => p.code === '9' && p.value === '$HANDSEED');
  if (seed >= 0) ordered[seed + 1] = { code: '5', value: (handle.seed + 1).toString(16).toUpperCase() };
  return ordered.flatMap((p) => [p.code, p.value]).join('\n');
}

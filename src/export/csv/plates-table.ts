import type { PlatePart } from '../../parts/plates/plate.js';
import { sizeRows } from '../dxf/flat-dxf.js';
import type { OutputFile } from '../output-file.js';
import { csvBytes } from './csv.js';

const HEADER = [
  'plate',
  'pattern',
  'for',
  'pieces',
  'thickness_mm',
  'material',
  'width_mm',
  'height_mm',
  'mass_kg',
  'open_area_mm2',
  'outlet_area_mm2',
  'sizes',
  'notes',
] as const;

/** Plates, rings and sleeves in numbers; width and height of a sleeve are those of the flat piece it is rolled from. */
export function platesTable(plates: readonly PlatePart[]): OutputFile {
  const rows = plates.map(({ plan, flat, openArea, outletArea }) => [
    plan.name,
    plan.pattern.kind,
    plan.feeds.join(' and '),
    plan.count,
    flat.thickness,
    flat.material,
    flat.size[0],
    flat.size[1],
    flat.mass,
    openArea,
    outletArea,
    sizeRows(flat).join('; '),
    flat.notes.join('; '),
  ]);
  return { path: 'plates.csv', kind: 'plates', bytes: csvBytes(HEADER, rows) };
}

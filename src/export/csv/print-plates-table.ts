import type { Finding } from '../../checks/finding.js';
import type { PrintPlan } from '../../params/plan.js';
import type { SolidPart } from '../../parts/part.js';
import { type PrintEstimate, printEstimate } from '../../parts/print-plates/print-estimate.js';
import type { PrintPlate, PrintPlates } from '../../parts/print-plates/print-plates.js';
import type { OutputFile } from '../output-file.js';
import { plainNumber } from '../plain-number.js';
import { type CsvCell, csvBytes } from './csv.js';

const HEADER = [
  'plate',
  'part',
  'copies',
  'x_mm',
  'y_mm',
  'z_mm',
  'plastic_cm3',
  'mass_g',
  'time_min',
  'notes',
] as const;

/**
 * What lies on every build plate, with estimates of plastic, mass and time for all copies; after the parts of a plate a row for
 * the whole of it. Parts that fit no plate come last, without a plate. Notes are what the checks found of the part.
 */
export function printPlatesTable(all: PrintPlates, print: PrintPlan, findings: readonly Finding[]): OutputFile {
  const notesOf = (part: SolidPart): string =>
    findings
      .filter((f) => f.place === part.name && f.id.startsWith('jig.') && f.level !== 'ok')
      .map((f) => f.message)
      .join(' ');
  const rows = [
    ...all.plates.flatMap((plate) => [...partRows(plate, print, notesOf), wholeRow(plate, all)]),
    ...all.tooBig.map((part): CsvCell[] => [
      null,
      part.name,
      0,
      ...sizeOf(part),
      null,
      null,
      null,
      notesOf(part) || 'does not fit the bed',
    ]),
  ];
  return { path: 'print/plates.csv', kind: 'print-plates', bytes: csvBytes(HEADER, rows) };
}

function partRows({ name, parts }: PrintPlate, print: PrintPlan, notesOf: (part: SolidPart) => string): CsvCell[][] {
  return [...new Set(parts.map((l) => l.part))].map((part) => {
    const copies = parts.filter((l) => l.part === part).length;
    return [
      name,
      part.name,
      copies,
      ...sizeOf(part),
      ...figures(printEstimate(part.mesh, print), copies),
      notesOf(part),
    ];
  });
}

function wholeRow({ name, parts, fill, estimate }: PrintPlate, { plates, fewest }: PrintPlates): CsvCell[] {
  const notes = `covers ${(100 * fill).toFixed(0)} % of the bed; ${plates.length} plates, by area at least ${fewest}`;
  return [name, 'whole plate', parts.length, null, null, null, ...figures(estimate, 1), notes];
}

const sizeOf = ({ size }: SolidPart): number[] => size.map((s) => plainNumber(s, 2));

/** Estimates are rough: more decimals would lie. */
const figures = ({ plastic, mass, time }: PrintEstimate, copies: number): number[] => [
  plainNumber((copies * plastic) / 1000, 1),
  plainNumber(copies * mass * 1000, 1),
  plainNumber((copies * time) / 60, 0),
];

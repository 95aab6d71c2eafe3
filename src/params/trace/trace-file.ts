import { type Chained, chainContours } from '../../geometry/contour/chain.js';
import { type Contour, type Piece, placeWords, shortNumber } from '../../geometry/contour/contour.js';
import { type DxfFile, readDxfFile } from '../../geometry/dxf/file.js';
import { type DxfPieces, dxfPieces, sameLayer } from '../../geometry/dxf/pieces.js';
import { either, show } from '../faults/wording.js';
import { LARGEST_TRACE_FILE, MOST_ENTITIES, MOST_TRACE_POINTS } from '../limits.js';
import type { ReadFile } from '../scans.js';
import { csvPiece } from './csv-points.js';
import { traceFault } from './trace-fault.js';

/** Splines and ellipses are followed this near, mm, before they are fitted: what is lost counts against the fit. */
const SAMPLING = 0.002;

/** What of a file is wanted. */
export interface Wanted {
  readonly file: string;
  readonly unit: 'mm' | 'in' | null;
  readonly layer: string | null;
  /** mm. */
  readonly heal: number;
}

/** The closed contours of a file, mm, in its order, and what was mended or left out, in words. */
export interface TraceContours {
  readonly contours: readonly Contour[];
  readonly notes: readonly string[];
  /** True where its lengths are inches. */
  readonly inInches: boolean;
}

export type ReadContours = (wanted: Wanted) => TraceContours;

/**
 * A reader of contours that opens each file once. It throws RangeError with the reason, naming line or entity, and with `field`
 * where another field than `file` mends it.
 */
export function contourReader(readFile: ReadFile | undefined): ReadContours {
  const texts = new Map<string, string>();
  const drawings = new Map<string, DxfFile>();
  const done = new Map<string, TraceContours>();
  const textOf = (file: string): string => {
    const text = texts.get(file) ?? decoded(readFile, file);
    texts.set(file, text);
    return text;
  };
  return (wanted) => {
    const key = JSON.stringify([wanted.file, wanted.unit, wanted.layer, wanted.heal]);
    const known = done.get(key);
    if (known !== undefined) return known;
    const { file } = wanted;
    const kind = /\.(dxf|csv)$/i.exec(file)?.[1]?.toLowerCase();
    if (kind === undefined) throw traceFault('file', `expected a file that ends in .dxf or .csv, found ${show(file)}`);
    let found: TraceContours;
    if (kind === 'csv') found = fromCsv(textOf(file), wanted);
    else {
      const drawing = drawings.get(file) ?? readDxfFile(textOf(file), MOST_ENTITIES);
      drawings.set(file, drawing);
      found = fromDxf(drawing, wanted);
    }
    done.set(key, found);
    return found;
  };
}

function decoded(readFile: ReadFile | undefined, file: string): string {
  if (readFile === undefined) throw new RangeError('this reader of plans was given no way to open files');
  const bytes = readFile(file, LARGEST_TRACE_FILE);
  if (bytes.length > LARGEST_TRACE_FILE) {
    throw new RangeError(`it has ${bytes.length} bytes; a trace has at most ${LARGEST_TRACE_FILE}`);
  }
  const text = textOfBytes(bytes).replace(/^\uFEFF/, '');
  return text.includes('\n') ? text : text.replaceAll('\r', '\n');
}

/** UTF-8, and what is not as the old eight-bit code of drawings: only names of layers and comments differ. */
function textOfBytes(bytes: Uint8Array): string {
  try {
    return new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

function fromCsv(text: string, { file, unit, layer, heal }: Wanted): TraceContours {
  if (layer !== null) throw traceFault('layer', 'a CSV has no layers: leave it out');
  if (unit === null) throw traceFault('unit', `missing; expected mm or in, the unit of ${show(file)}`);
  const { piece, notes } = csvPiece(text, unit, MOST_TRACE_POINTS);
  const { contours } = chainContours([piece], heal);
  return { contours, notes: notes.map((note) => `${file}: ${note}`), inInches: unit === 'in' };
}

/** $INSUNITS that a fabricator's drawing may have. Source: Autodesk DXF reference, HEADER. */
const UNITS: ReadonlyMap<number, { readonly name: string; readonly mm: number }> = new Map([
  [1, { name: 'in', mm: 25.4 }],
  [2, { name: 'ft', mm: 304.8 }],
  [4, { name: 'mm', mm: 1 }],
  [5, { name: 'cm', mm: 10 }],
  [6, { name: 'm', mm: 1000 }],
]);

function unitOf(drawing: DxfFile, { file, unit }: Wanted): { readonly name: string; readonly mm: number } {
  const code = drawing.units ?? 0;
  if (code === 0) {
    if (unit === null)
      throw traceFault('unit', `missing; expected mm or in: ${show(file)} does not say its unit ($INSUNITS)`);
    return { name: unit, mm: unit === 'in' ? 25.4 : 1 };
  }
  const own = UNITS.get(code);
  if (own === undefined) throw new RangeError(`its unit, $INSUNITS ${code}, is none of mm, in, cm, m and ft`);
  if (unit !== null && unit !== own.name) {
    throw traceFault(
      'unit',
      `${show(file)} says its unit is ${own.name} ($INSUNITS ${code}), the plan says ${unit}; leave unit out if the file is right`,
    );
  }
  return own;
}

function fromDxf(drawing: DxfFile, wanted: Wanted): TraceContours {
  const unit = unitOf(drawing, wanted);
  const reading = { scale: unit.mm, error: SAMPLING, most: MOST_TRACE_POINTS, layer: wanted.layer };
  const read = dxfPieces(drawing, reading);
  if (read.pieces.length === 0) {
    const layers = [...new Set(drawing.entities.map((e) => e.layer))];
    const { layer } = wanted;
    if (layer !== null && !layers.some((l) => sameLayer(l, layer))) {
      const has =
        layers.length === 0 ? 'nothing is drawn in it' : `it has ${either(layers.slice(0, 12).map(show), 'and')}`;
      throw traceFault('layer', `nothing lies on layer ${show(layer)}; ${has}`);
    }
    throw new RangeError(
      `it has no lines${layer === null ? ' on any layer that is switched on' : ` on layer ${show(layer)}`}`,
    );
  }
  const chained = chainContours(read.pieces, wanted.heal);
  return { contours: chained.contours, notes: notesOf(read, chained, drawing, wanted), inInches: unit.name === 'in' };
}

/** Most places or kinds one note lists. */
const MOST_LISTED = 20;

function notesOf(read: DxfPieces, { healed, doubled }: Chained, drawing: DxfFile, { file, layer }: Wanted): string[] {
  const notes: string[] = [];
  for (const { at, gap, between } of healed.slice(0, MOST_LISTED)) {
    notes.push(`a gap of ${shortNumber(gap)} mm is closed at ${placeWords(at)}, from ${between[0]} to ${between[1]}`);
  }
  if (healed.length > MOST_LISTED) notes.push(`${healed.length - MOST_LISTED} more gaps are closed`);
  for (const { name, on } of doubled.slice(0, MOST_LISTED)) notes.push(`${name} lies on ${on} and is left out`);
  if (doubled.length > MOST_LISTED) notes.push(`${doubled.length - MOST_LISTED} more that lie on others are left out`);
  const kinds = [...read.leftOut].slice(0, MOST_LISTED).map(([kind, n]) => `${n} ${kind}`);
  if (kinds.length > 0) notes.push(`not cut, and left out: ${kinds.join(', ')}`);
  const hidden = layer === null ? drawing.entities.filter((e) => drawing.hidden.has(e.layer)).length : 0;
  if (hidden > 0) notes.push(`${hidden} entities on layers that are switched off are left out`);
  return notes.map((note) => `${file}: ${note}`);
}

/** The name of a contour's first entity. */
export const contourName = (contour: Contour): Piece['name'] => contour[0]!.name;

import type { Footprint, Raster } from './footprint.js';

/** What is taken on one build plate, in cells, the gap round every part included. */
export interface PlateRaster {
  readonly raster: Raster;
  /** Per row: 1 where no other part may lie. */
  readonly taken: Uint8Array;
  /** First taken cell from here on in the row, and first free one from here on; the row's end when there is none. */
  readonly nextTaken: Int32Array;
  readonly nextFree: Int32Array;
}

/** A plate with nothing on it. */
export function emptyPlate(raster: Raster): PlateRaster {
  const { columns, rows } = raster;
  const row = columns + 1;
  const nextFree = new Int32Array(row * rows);
  for (let i = 0; i < nextFree.length; i++) nextFree[i] = i % row;
  return {
    raster,
    taken: new Uint8Array(columns * rows),
    nextTaken: new Int32Array(row * rows).fill(columns),
    nextFree,
  };
}

/** First column, from the left, where the footprint lies free with its lowest row in that row; -1 when there is none. */
export function freeColumn(plate: PlateRaster, footprint: Footprint, row: number): number {
  const { columns, rows } = plate.raster;
  if (row + footprint.rows > rows) return -1;
  let column = 0;
  let start = 0;
  search: while (column + footprint.columns <= columns) {
    // the row that was in the way last is the likeliest to be so again
    for (let k = 0; k < footprint.rows; k++) {
      const r = (start + k) % footprint.rows;
      const base = (row + r) * (columns + 1);
      const runs = footprint.runs[r]!;
      for (let i = 0; i < runs.length; i += 2) {
        const hit = plate.nextTaken[base + column + runs[i]!]!;
        if (hit > column + runs[i + 1]!) continue;
        column = plate.nextFree[base + hit]! - runs[i]!;
        start = r;
        continue search;
      }
    }
    return column;
  }
  return -1;
}

/** Takes the footprint's cells there, and every cell nearer than `gap` mm to one of them. */
export function take(plate: PlateRaster, footprint: Footprint, column: number, row: number, gap: number): void {
  const { columns, rows, cell } = plate.raster;
  const reach = reaches(cell, gap);
  footprint.runs.forEach((runs, r) => {
    for (let i = 0; i < runs.length; i += 2) {
      reach.forEach((wide, d) => {
        for (const at of d === 0 ? [row + r] : [row + r - d, row + r + d]) {
          if (at < 0 || at >= rows) continue;
          const from = Math.max(0, column + runs[i]! - wide);
          plate.taken.fill(1, at * columns + from, at * columns + Math.min(columns, column + runs[i + 1]! + wide + 1));
        }
      });
    }
  });
  const margin = reach.length - 1;
  for (let at = Math.max(0, row - margin); at < Math.min(rows, row + footprint.rows + margin); at++) index(plate, at);
}

/** For each number of rows away: how many columns away a cell is still nearer than the gap. */
function reaches([width, height]: Raster['cell'], gap: number): number[] {
  const found: number[] = [0];
  // cells d apart have d - 1 whole cells between them
  for (let d = 0; d === 0 || (d - 1) * height < gap - 1e-9; d++) {
    const up = Math.max(0, d - 1) * height;
    const across = Math.sqrt(Math.max(0, gap * gap - up * up));
    found[d] = gap > 0 ? Math.ceil(across / width - 1e-9) : 0;
  }
  return found;
}

function index({ raster: { columns }, taken, nextTaken, nextFree }: PlateRaster, row: number): void {
  const base = row * (columns + 1);
  for (let c = columns - 1; c >= 0; c--) {
    const full = taken[row * columns + c] === 1;
    nextTaken[base + c] = full ? c : nextTaken[base + c + 1]!;
    nextFree[base + c] = full ? nextFree[base + c + 1]! : c;
  }
}

import { type Shadow, shadowBox } from '../../geometry/mesh/shadow.js';
import type { Vec2 } from '../../geometry/vec2.js';

/** Raster of a build plate: number of cells across and up, and their size, mm. */
export interface Raster {
  readonly columns: number;
  readonly rows: number;
  readonly cell: Vec2;
}

/** About how large a cell is, mm, on beds that this gives at most so many cells across. */
const CELL = 1;
const MOST_CELLS = 300;

/** The raster of a bed of that size, mm: whole cells that fill it exactly. */
export function rasterOf(bed: Vec2): Raster {
  const cells = (side: number): number => Math.min(MOST_CELLS, Math.max(1, Math.round(side / CELL)));
  const [columns, rows] = [cells(bed[0]), cells(bed[1])];
  return { columns, rows, cell: [bed[0] / columns, bed[1] / rows] };
}

/** Cells a part touches. */
export interface Footprint {
  readonly columns: number;
  readonly rows: number;
  /** For every row from the lowest: first and last cell of each run, in turn. */
  readonly runs: readonly (readonly number[])[];
  /** Where its low corner lies about the shadow's origin, mm. */
  readonly low: Vec2;
}

/** Coordinates this near a line between cells, in cells, are on it: they touch one side only. */
const ON_LINE = 1e-7;

/** Every cell a shadow touches: those its edges run through, and those whose middle it covers. */
export function footprintOf(shadow: Shadow, { cell }: Raster): Footprint {
  const { low, high } = shadowBox(shadow);
  const span = (k: 0 | 1): number => Math.max(1, Math.ceil((high[k] - low[k]) / cell[k] - ON_LINE));
  const cells: Cells = {
    columns: span(0),
    rows: span(1),
    touched: new Uint8Array(span(0) * span(1)),
    turns: new Int16Array((span(0) + 1) * span(1)),
  };
  const { edges } = shadow;
  for (let i = 0; i < edges.length; i += 4) {
    const [x0, y0] = [(edges[i]! - low[0]) / cell[0], (edges[i + 1]! - low[1]) / cell[1]];
    const [x1, y1] = [(edges[i + 2]! - low[0]) / cell[0], (edges[i + 3]! - low[1]) / cell[1]];
    // counter-clockwise rings run down on their left
    if (y0 > y1) markEdge(cells, x1, y1, x0, y0, 1);
    else markEdge(cells, x0, y0, x1, y1, -1);
  }
  const runs = Array.from({ length: cells.rows }, (_, row) => runsOf(cells, row));
  return { columns: cells.columns, rows: cells.rows, runs, low };
}

/** The footprint turned by half a turn about the shadow's origin. */
export function halfTurned({ columns, rows, runs, low }: Footprint, { cell }: Raster): Footprint {
  return {
    columns,
    rows,
    runs: [...runs].reverse().map((row) => row.map((c) => columns - 1 - c).reverse()),
    low: [-(low[0] + columns * cell[0]), -(low[1] + rows * cell[1])],
  };
}

interface Cells {
  readonly columns: number;
  readonly rows: number;
  /** Per row: 1 where an edge runs through the cell. */
  readonly touched: Uint8Array;
  /** Per row: by how much the winding number of the cells' middles rises from the cell before; one more than there are cells. */
  readonly turns: Int16Array;
}

/** An edge in cells, from its lower end to its upper. */
function markEdge(cells: Cells, x0: number, y0: number, x1: number, y1: number, turn: number): void {
  const { columns, rows, touched, turns } = cells;
  const slope = y1 > y0 ? (x1 - x0) / (y1 - y0) : 0;
  const first = Math.min(rows - 1, Math.max(0, Math.floor(y0 + ON_LINE)));
  const last = Math.min(rows - 1, Math.max(first, Math.ceil(y1 - ON_LINE) - 1));
  for (let row = first; row <= last; row++) {
    const a = row <= y0 ? x0 : x0 + (row - y0) * slope;
    const b = row + 1 >= y1 ? x1 : x0 + (row + 1 - y0) * slope;
    const [left, right] = a < b ? [a, b] : [b, a];
    const from = Math.min(columns - 1, Math.max(0, Math.floor(left + ON_LINE)));
    const to = Math.min(columns - 1, Math.max(from, Math.ceil(right - ON_LINE) - 1));
    touched.fill(1, row * columns + from, row * columns + to + 1);
    // an edge's lower end is its own, the upper is its neighbour's: rings are crossed in pairs
    const middle = row + 0.5;
    if (middle < y0 || middle >= y1) continue;
    const cell = Math.min(columns, Math.max(0, Math.ceil(x0 + (middle - y0) * slope - 0.5)));
    turns[row * (columns + 1) + cell]! += turn;
  }
}

function runsOf({ columns, touched, turns }: Cells, row: number): number[] {
  const runs: number[] = [];
  let winding = 0;
  let inside = false;
  for (let c = 0; c < columns; c++) {
    winding += turns[row * (columns + 1) + c]!;
    const taken = winding > 0 || touched[row * columns + c] === 1;
    if (taken !== inside) runs.push(taken ? c : c - 1);
    inside = taken;
  }
  if (inside) runs.push(columns - 1);
  return runs;
}

import type { Vec2 } from '../../geometry/vec2.js';

/** Paper, mm: ISO 216 and ANSI Y14.1. */
export const PAPER = { a4: [210, 297], letter: [215.9, 279.4] } as const;

export type PaperName = keyof typeof PAPER;

/** Neighbouring tiles show the same strip of this width, mm. */
export const OVERLAP = 10;

/** Paper left white all round, mm: what common printers cannot reach, and a little more. */
export const WHITE = 10;

/** Strips beside the drawing on every page, mm: title above, upright ruler at the left, level ruler and cautions below. */
export const STRIP = { top: 9, left: 13, bottom: 30 } as const;

export interface Strip {
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
}

/** One page's part of the drawing. */
export interface Tile {
  /** Row from the top by letter, column from the left by number: 'A1'. */
  readonly name: string;
  readonly row: number;
  readonly column: number;
  /** Lower left corner of what the page shows, mm, in the drawing. */
  readonly from: Vec2;
}

/** How a drawing is spread over pages. */
export interface Tiling {
  /** mm. */
  readonly page: Vec2;
  /** Room for the drawing on a page, mm. */
  readonly window: Vec2;
  readonly columns: number;
  readonly rows: number;
  /** Row by row from the top. */
  readonly tiles: readonly Tile[];
  /** Middles of the strips that neighbours share, in the drawing, mm. */
  readonly joints: { readonly x: readonly number[]; readonly y: readonly number[] };
}

/** The fewest pages that show a box of the drawing at 1:1, upright or lying; upright when both are as good. */
export function tilingOf(from: Vec2, to: Vec2, paper: PaperName, strip: Strip = STRIP): Tiling {
  const [short, long] = PAPER[paper];
  const [upright, lying] = [tiled(from, to, [short, long], strip), tiled(from, to, [long, short], strip)];
  return lying.tiles.length < upright.tiles.length ? lying : upright;
}

function tiled(from: Vec2, to: Vec2, page: Vec2, strip: Strip): Tiling {
  const window: Vec2 = [page[0] - 2 * WHITE - strip.left, page[1] - 2 * WHITE - strip.top - strip.bottom];
  const step: Vec2 = [window[0] - OVERLAP, window[1] - OVERLAP];
  const count = [0, 1].map((k) => Math.max(1, Math.ceil((to[k]! - from[k]! - OVERLAP) / step[k]! - 1e-9)));
  const [columns, rows] = [count[0]!, count[1]!];
  const start = [0, 1].map((k) => (from[k]! + to[k]! - (count[k]! * step[k]! + OVERLAP)) / 2);
  const at = (k: 0 | 1, i: number): number => start[k]! + i * step[k]!;
  const joints = (k: 0 | 1): number[] => Array.from({ length: count[k]! - 1 }, (_, i) => at(k, i + 1) + OVERLAP / 2);
  const tiles = Array.from({ length: rows * columns }, (_, i): Tile => {
    const [row, column] = [Math.floor(i / columns), i % columns];
    const name = `${String.fromCharCode(65 + row)}${column + 1}`;
    return { name, row, column, from: [at(0, column), at(1, rows - 1 - row)] };
  });
  return { page, window, columns, rows, tiles, joints: { x: joints(0), y: joints(1) } };
}

import type { Vec2 } from '../vec2.js';

/** Numbered points found again by their place. */
export interface PointGrid {
  readonly add: (p: Vec2, n: number) => void;
  /** Numbers of all points within `reach` mm, and of some a little further. */
  readonly near: (p: Vec2) => readonly number[];
}

/** A grid of cells as wide as the reach, mm, so that all within it stand in nine cells. */
export function pointGrid(reach: number): PointGrid {
  const cells = new Map<string, number[]>();
  const cell = (v: number): number => Math.floor(v / reach);
  return {
    add: (p, n) => {
      const key = `${cell(p[0])},${cell(p[1])}`;
      const there = cells.get(key);
      if (there === undefined) cells.set(key, [n]);
      else there.push(n);
    },
    near: (p) => {
      const found: number[] = [];
      for (let x = cell(p[0]) - 1; x <= cell(p[0]) + 1; x++) {
        for (let y = cell(p[1]) - 1; y <= cell(p[1]) + 1; y++) {
          for (const n of cells.get(`${x},${y}`) ?? []) found.push(n);
        }
      }
      return found;
    },
  };
}

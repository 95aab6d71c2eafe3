import { cosSinDegrees } from '../../src/geometry/angle.js';
import { type Shadow, shadowBox, turnedShadow } from '../../src/geometry/mesh/shadow.js';

type Edge = readonly [x0: number, y0: number, x1: number, y1: number];

/** A shadow where it lies on its plate, as edges: measured edge by edge, without any raster. */
export interface LyingShadow {
  readonly edges: readonly Edge[];
  readonly low: readonly [number, number];
  readonly high: readonly [number, number];
}

/** The shadow turned by degrees, then moved. */
export function lying(shadow: Shadow, turn: number, by: readonly [number, number]): LyingShadow {
  const turned = turnedShadow(shadow, ...cosSinDegrees(turn));
  const edges: Edge[] = [];
  for (let i = 0; i < turned.edges.length; i += 4) {
    const [a, b, c, d] = turned.edges.subarray(i, i + 4);
    edges.push([a! + by[0], b! + by[1], c! + by[0], d! + by[1]]);
  }
  const { low, high } = shadowBox(turned);
  return { edges, low: [low[0] + by[0], low[1] + by[1]], high: [high[0] + by[0], high[1] + by[1]] };
}

/** Least distance between the edges of two shadows, mm, or `enough` when their boxes are that far apart; 0 when they cross. */
export function gapBetween(a: LyingShadow, b: LyingShadow, enough: number): number {
  if ([0, 1].some((k) => a.low[k]! - b.high[k]! >= enough || b.low[k]! - a.high[k]! >= enough)) return enough;
  let least = Number.POSITIVE_INFINITY;
  for (const e of a.edges) {
    for (const f of b.edges) {
      if (crosses(e, f)) return 0;
      least = Math.min(
        least,
        toEdge(e[0], e[1], f),
        toEdge(e[2], e[3], f),
        toEdge(f[0], f[1], e),
        toEdge(f[2], f[3], e),
      );
    }
  }
  return least;
}

/** True when a point of one lies inside the other: an odd number of its rings surround it. */
export function encloses(outer: LyingShadow, inner: LyingShadow): boolean {
  const [x, y] = inner.edges[0]!;
  let winding = 0;
  for (const [x0, y0, x1, y1] of outer.edges) {
    if (y0 <= y === y1 <= y) continue;
    if (x0 + ((y - y0) / (y1 - y0)) * (x1 - x0) > x) winding += y1 > y0 ? 1 : -1;
  }
  return winding !== 0;
}

const side = (e: Edge, x: number, y: number): number => (e[2] - e[0]) * (y - e[1]) - (e[3] - e[1]) * (x - e[0]);

const crosses = (e: Edge, f: Edge): boolean =>
  side(e, f[0], f[1]) * side(e, f[2], f[3]) < 0 && side(f, e[0], e[1]) * side(f, e[2], e[3]) < 0;

function toEdge(x: number, y: number, [x0, y0, x1, y1]: Edge): number {
  const [dx, dy] = [x1 - x0, y1 - y0];
  const l = dx * dx + dy * dy;
  const t = l > 0 ? Math.min(1, Math.max(0, ((x - x0) * dx + (y - y0) * dy) / l)) : 0;
  return Math.hypot(x - x0 - t * dx, y - y0 - t * dy);
}

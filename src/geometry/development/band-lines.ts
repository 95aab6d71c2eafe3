import { wrapTwoPi } from '../angle.js';
import { distance, type Vec3 } from '../vec3.js';
import { type ConvexRim, rimPoint } from './convex-rim.js';

const TURN = 2 * Math.PI;

/** Points this close, mm, are one. */
export const SAME = 1e-9;

/** A straight line of the surface from rim to rim, in space, mm. */
export interface BandLine {
  readonly low: Vec3;
  readonly high: Vec3;
  /** Outward normal of both rims there, rad. */
  readonly normal: number;
  /** What lies between the line before and this one: a flat triangle or trapezoid, or a piece of cone. */
  readonly before: 'flat' | 'cone';
  /** Number of the piece of cone or the flat it ends. */
  readonly piece: number;
}

/** Normals, rad, to put the seam at: the shortest of `count` lines first, then others round the surface. */
export function seamsOf(low: ConvexRim, high: ConvexRim, height: number, count: number): number[] {
  const lines = linesFrom(low, high, height, 0, count);
  const lengths = lines.map((l) => distance(l.low, l.high));
  const least = Math.min(...lengths);
  const shortest = lines[lengths.findIndex((l) => l < least + 1e-6)]!.normal;
  return [shortest, ...[1, 2, 3, 4, 5].map((k) => shortest + (k * TURN) / 6)];
}

/** Lines of the surface once round from a normal, about `count` on its cones. */
export function linesFrom(low: ConvexRim, high: ConvexRim, height: number, seam: number, count: number): BandLine[] {
  const swaps = [...low.spans, ...high.spans].map((s) => seam + wrapTwoPi(s.from - seam));
  const inside = swaps.filter((a) => a > seam + SAME && a < seam + TURN - SAME).sort((a, b) => a - b);
  const breaks = [seam, ...inside.filter((a, i) => i === 0 || a - inside[i - 1]! > SAME), seam + TURN];
  const lines: BandLine[] = [];
  for (let i = 1; i < breaks.length; i++) {
    const [from, to] = [breaks[i - 1]!, breaks[i]!];
    const steps = Math.max(6, Math.ceil(((to - from) / TURN) * count));
    for (let k = 0; k <= steps; k++) {
      const normal = from + ((to - from) * k) / steps;
      const [a, b] = [rimPoint(low, normal, (from + to) / 2), rimPoint(high, normal, (from + to) / 2)];
      push(lines, {
        low: [...a, 0],
        high: [...b, height],
        normal,
        before: k === 0 ? 'flat' : 'cone',
        piece: 2 * i + (k === 0 ? 0 : 1),
      });
    }
  }
  const first = lines[0]!;
  push(lines, { ...first, normal: seam + TURN, before: 'flat', piece: 2 * breaks.length });
  return lines;
}

/** A line is kept where it is another than the one before. */
function push(lines: BandLine[], line: BandLine): void {
  const last = lines.at(-1);
  if (last !== undefined && distance(last.low, line.low) < SAME && distance(last.high, line.high) < SAME) return;
  lines.push(line);
}

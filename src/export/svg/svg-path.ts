import type { Outline } from '../../geometry/outline/outline.js';
import { sidesOf } from '../../geometry/outline/sides.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { plainNumber } from '../plain-number.js';

const mm = (value: number): number => plainNumber(value, 4);

/** Path data of a closed outline in mm with y down the page, arcs kept as arcs. */
export function svgPath(outline: Outline): string {
  const sides = sidesOf(outline);
  const first = sides[0]!;
  const steps = sides.map((s) => {
    const to = `${mm(s.to[0])} ${mm(-s.to[1])}`;
    if (s.kind === 'line') return `L ${to}`;
    const large = Math.abs(s.sweep) > Math.PI ? 1 : 0;
    return `A ${mm(s.radius)} ${mm(s.radius)} 0 ${large} ${s.sweep > 0 ? 0 : 1} ${to}`;
  });
  return [`M ${mm(first.from[0])} ${mm(-first.from[1])}`, ...steps, 'Z'].join(' ');
}

/** Path data of an open line through points in mm with y down the page. */
export const strokePath = (points: readonly Vec2[]): string =>
  points.map(([x, y], i) => `${i === 0 ? 'M' : 'L'} ${mm(x)} ${mm(-y)}`).join(' ');

import type { Outline } from '../../src/geometry/outline/outline.js';
import { dxfWith, type Groups, line } from './dxf-text.js';
import { tracedOf, traceFault } from './trace-plan.js';

/** A drawing by the name the plan gives it; `units` as its header has them, 4 for mm. */
export const dxf = (entities: readonly Groups[], units: number | null = 4) => ({ 'a.dxf': dxfWith(entities, units) });
/** The port traced from a drawing. */
export const port = (entities: readonly Groups[], fields = '') => tracedOf(`file: a.dxf${fields}`, dxf(entities));
/** Why a port of a drawing is refused. */
export const refused = (entities: readonly Groups[], fields = '') => traceFault(`file: a.dxf${fields}`, dxf(entities));

/** An L of sides 40 and 30 mm about nothing in particular: it tells turning from mirroring. */
export const L: readonly (readonly [number, number])[] = [
  [100, 50],
  [140, 50],
  [140, 60],
  [115, 60],
  [115, 80],
  [100, 80],
];
/** What puts the L about its middle. */
export const ROUND_L = ', at: [107, 56]';

/** A square as four loose lines A1 to A4. */
export const square = (x: number, y: number, size: number): Groups[] => [
  line([x, y], [x + size, y], '0', 'A1'),
  line([x + size, y], [x + size, y + size], '0', 'A2'),
  line([x + size, y + size], [x, y + size], '0', 'A3'),
  line([x, y + size], [x, y], '0', 'A4'),
];

/** Corners in an order of their own. */
export const corners = (o: Outline): string[] => o.vertices.map((v) => `${+v.x.toFixed(6)},${+v.y.toFixed(6)}`).sort();

import { pathFromPolygon } from '../../src/geometry/path/control-polygon.js';
import { firstNormal } from '../../src/geometry/path/lra.js';
import { carryNormal, pathLength } from '../../src/geometry/path/path.js';
import type { Vec3 } from '../../src/geometry/vec3.js';
import type { PrintedSpan } from '../../src/parts/jigs/printed-spans.js';

/** The third piece of cylinder 2, of 42.4 mm tube, through intersection points; with whatever is to be otherwise. */
export function madeSpan(
  points: readonly Vec3[],
  clr: readonly number[],
  otherwise: Partial<PrintedSpan> = {},
): PrintedSpan {
  const path = pathFromPolygon({ points, clr });
  const startNormal = firstNormal(points);
  const { fromRun = 100 } = otherwise;
  return {
    name: '2C',
    file: '2c',
    tube: '2',
    cylinder: 2,
    number: 3,
    od: 42.4,
    wall: 2,
    fromRun,
    toRun: fromRun + pathLength(path),
    path,
    kind: clr.length > 0 ? 'bend' : 'straight',
    startNormal,
    endNormal: carryNormal(path, startNormal),
    first: false,
    last: false,
    startsAtCut: true,
    endsAtCut: true,
    ...otherwise,
  };
}

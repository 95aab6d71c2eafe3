import type { Editable, PlanEdit } from '../../export/book/bench-data.js';
import type { Triple } from '../../export/book/scene-data.js';
import { sub, unit } from '../../geometry/vec3.js';
import type { Handle } from '../view/handle.js';

/** A place of the plan that can be dragged in the picture, and what the drag changes. */
export interface PlanHandle extends Handle {
  readonly edit: (at: Triple) => PlanEdit;
}

/** What a drag is rounded to: half a millimetre, a fiftieth of an inch. */
const GRID = { mm: 0.5, in: 0.508 } as const;

/** Handles of collectors and keep-outs, and of the inner points of the lit tube's route where it is given by hand. */
export function planHandles({ collectors, keepOuts, routes, units }: Editable, lit: string | null): PlanHandle[] {
  const rounded = (at: Triple): Triple => at.map((v) => Math.round(v / GRID[units]) * GRID[units]) as unknown as Triple;
  const route = routes.find((r) => String(r.cylinder) === lit);
  return [
    ...collectors.map(
      (c, collector): PlanHandle => ({
        id: `collector ${collector}`,
        title: collectors.length > 1 ? `collector ${c.name}` : 'collector',
        at: c.at,
        edit: (at) => ({ edit: 'collector-at', collector, at: rounded(at) }),
      }),
    ),
    ...keepOuts.map(
      (k, keepOut): PlanHandle => ({
        id: `keep-out ${keepOut}`,
        title: k.name,
        at: k.at,
        edit: (at) => ({ edit: 'keep-out-at', keepOut, at: rounded(at) }),
      }),
    ),
    ...(route ? routeHandles(route.cylinder, route.points, rounded) : []),
  ];
}

/** The first inner point stays on the port's axis and the last on the inlet's, as a tube that meets both must. */
function routeHandles(cylinder: number, points: readonly Triple[], rounded: (at: Triple) => Triple): PlanHandle[] {
  const last = points.length - 2;
  return points.slice(1, -1).map((at, i) => {
    const point = i + 1;
    const end = point === 1 ? points[0]! : point === last ? points[last + 1]! : null;
    const along = end ? { along: unit(sub(at, end)) } : {};
    return {
      id: `route ${cylinder} ${point}`,
      title: `point ${point}`,
      at,
      ...along,
      edit: (to) => ({ edit: 'route-point', cylinder, point, at: end ? to : rounded(to) }),
    };
  });
}

import { bendAngles, straightLengths } from '../../geometry/path/control-polygon.js';
import { angleBetween, distance } from '../../geometry/vec3.js';
import type { PlanFault, PlanPath } from '../faults/plan-problem.js';
import { either, lengthWords, tidy } from '../faults/wording.js';
import type { Port } from '../plan.js';
import { placedCollectors } from '../resolve/collectors.js';
import type { Draft } from '../resolve/draft.js';
import { type RouteSection, routePolygon } from '../resolve/given-route.js';
import { placedHeads } from '../resolve/heads.js';
import { placedPorts } from '../resolve/ports.js';
import type { LengthUnit } from '../units.js';

/** A given route begins this near to its port, mm. */
const AT_PORT = 0.05;

/** The plane of the first bend may miss the port's axis by this, rad: half a degree of rounding in what people type. */
const PLANE_TOLERANCE = Math.PI / 360;

/** Bends sharper than this, rad, turn back on themselves. */
const SHARPEST = (175 * Math.PI) / 180;

/** Routes given by hand: one for each primary at most, of a port, to an inlet that is there, and a shape tube can have. */
export function routeRules({ sections }: Draft): PlanFault[] {
  const { runners } = sections;
  const ports = placedPorts(placedHeads(sections)).map((p) => p.port);
  if (runners === undefined || ports.length === 0) return [];
  const cylinders = ports.map((p) => p.cylinder);
  return [
    ...missing(runners, cylinders),
    ...runners.routes.flatMap((route, i): PlanFault[] => {
      const path = ['runners', 'routes', i];
      const port = ports.find((p) => p.cylinder === route.cylinder);
      if (port === undefined) {
        const message = `cylinder ${route.cylinder} has no port; the ports are of cylinders ${cylinders.join(', ')}`;
        return [{ path: [...path, 'cylinder'], message }];
      }
      if (runners.routes.findIndex((r) => r.cylinder === route.cylinder) !== i) {
        return [{ path: [...path, 'cylinder'], message: `cylinder ${route.cylinder} has a route already` }];
      }
      return [
        ...inletFaults(sections, route, cylinders, path),
        ...stockFaults(sections, route, path),
        ...shapeFaults(route, port, path, sections.units ?? 'mm'),
      ];
    }),
  ];
}

function missing(runners: NonNullable<Draft['sections']['runners']>, cylinders: readonly number[]): PlanFault[] {
  if (runners.route !== 'given') return [];
  const without = cylinders.filter((c) => !runners.routes.some((r) => r.cylinder === c));
  if (without.length === 0) return [];
  const message = `route: given wants a route for every primary; cylinder ${without.join(', ')} has none`;
  return [{ path: ['runners', 'routes'], atKey: true, message }];
}

function inletFaults(
  sections: Draft['sections'],
  route: RouteSection,
  cylinders: readonly number[],
  path: PlanPath,
): PlanFault[] {
  const { inlet } = route;
  const collector = placedCollectors(sections, cylinders).find((c) => c.cylinders.includes(route.cylinder));
  if (inlet === undefined || collector === undefined) return [];
  const fault = (message: string): PlanFault[] => [{ path: [...path, 'inlet'], message }];
  if (inlet > collector.cylinders.length) {
    return fault(`expected an inlet from 1 to ${collector.cylinders.length} of its collector, found ${inlet}`);
  }
  const { order } = collector.section;
  if (typeof order !== 'string' && order[inlet - 1] !== route.cylinder) {
    return fault(`the collector's order gives inlet ${inlet} to cylinder ${order[inlet - 1]}`);
  }
  const other = sections.runners?.routes.find((r) => r.inlet === inlet && collector.cylinders.includes(r.cylinder));
  if (other === undefined || other === route) return [];
  return fault(`inlet ${inlet} is taken by the route of cylinder ${other.cylinder}`);
}

function stockFaults({ tube, units = 'mm' }: Draft['sections'], route: RouteSection, path: PlanPath): PlanFault[] {
  if (tube === undefined) return [];
  const words = (mm: number) => lengthWords(mm, units);
  const stock = [tube, ...tube.steps].flatMap((size) => size.bends);
  const stocked = (clr: number) => stock.some((b) => Math.abs(b.clr - clr) < 1e-6);
  const message = (clr: number) =>
    `no bend in stock has a CLR of ${words(clr)}; tube.bends has ${either(
      stock.map((b) => words(b.clr)),
      'and',
    )}`;
  if (route.by === 'lra') {
    return route.rows.flatMap((row, k) =>
      stocked(row.clr) ? [] : [{ path: [...path, 'rows', k, 'clr'], message: message(row.clr) }],
    );
  }
  if (!Array.isArray(route.clr))
    return stocked(route.clr) ? [] : [{ path: [...path, 'clr'], message: message(route.clr) }];
  return route.clr.flatMap((clr, k) => (stocked(clr) ? [] : [{ path: [...path, 'clr', k], message: message(clr) }]));
}

function shapeFaults(route: RouteSection, port: Port, path: PlanPath, units: LengthUnit): PlanFault[] {
  const words = (mm: number) => lengthWords(mm, units);
  if (route.by === 'lra') {
    const off = Math.abs(angleBetween(route.plane, port.frame.z) - Math.PI / 2);
    if (off <= PLANE_TOLERANCE) return [];
    const axis = port.frame.z.map(tidy).join(', ');
    const message = `the normal of a bend plane is square to the tube: expected a direction square to the port's axis [${axis}]`;
    return [{ path: [...path, 'plane'], message }];
  }
  const { points } = route;
  const twin = points.findIndex((p, k) => k > 0 && distance(p, points[k - 1]!) < AT_PORT);
  if (twin > 0) return [{ path: [...path, 'points', twin], message: 'this point is the same as the one before' }];
  const away = distance(points[0]!, port.frame.origin);
  const start: PlanFault[] = [];
  if (away > AT_PORT) {
    const at = port.frame.origin.map(words).join(', ');
    const message = `the route must begin at its port, [${at}]; this point is ${words(away)} away`;
    start.push({ path: [...path, 'points', 0], message });
  }
  const back = bendAngles(points).findIndex((a) => a > SHARPEST);
  if (back >= 0) {
    const message = 'the route turns back on itself here; make a U-bend from two points';
    return [...start, { path: [...path, 'points', back + 1], message }];
  }
  const short = straightLengths(routePolygon(route, port)).flatMap((straight, k): PlanFault[] => {
    if (straight >= -1e-6) return [];
    const message = `the bends before and after this leg overlap by ${words(-straight)}; move the points apart or take a smaller CLR`;
    return [{ path: [...path, 'points', k + 1], message }];
  });
  return [...start, ...short];
}

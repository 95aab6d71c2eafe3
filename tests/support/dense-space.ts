import type { Vec3 } from '../../src/geometry/vec3.js';
import type { CollectorPlan, KeepOut, Plan } from '../../src/params/plan.js';
import { collectorLength } from '../../src/routing/problem.js';
import { inner, minus, plus } from './dense-tube.js';

/** Distance from a point to the skin of some space, mm; 0 or negative inside. */
export type SkinDistance = (p: Vec3) => number;

/** Distance to a keep-out of the plan; a scan is taken triangle by triangle. */
export function keepOutDistance(k: KeepOut): SkinDistance {
  switch (k.kind) {
    case 'box':
      return (p) => outside([0, 1, 2].map((i) => Math.max(k.from[i]! - p[i]!, p[i]! - k.to[i]!)));
    case 'half-space':
      return (p) => inner(minus(p, k.point), k.normal);
    case 'cylinder':
    case 'capsule':
      return barDistance(k.from, k.to, k.diameter / 2, k.kind === 'capsule');
    case 'mesh':
      throw new RangeError('a scan is measured by its triangles');
  }
}

/** Distance to a round bar between two points, with flat ends or with half balls. */
export function barDistance(from: Vec3, to: Vec3, radius: number, roundEnds: boolean): SkinDistance {
  const axis = minus(to, from);
  const l = Math.hypot(...axis);
  return (p) => {
    const rel = minus(p, from);
    const h = inner(rel, axis) / l;
    const r = Math.sqrt(Math.max(0, inner(rel, rel) - h * h));
    const past = Math.max(-h, h - l);
    return roundEnds ? Math.hypot(r, Math.max(0, past)) - radius : outside([r - radius, past]);
  };
}

/** What every plan keeps tubes out of beside its keep-outs: the heads with their flanges, and the collectors. */
export interface OwnSpace {
  readonly name: string;
  readonly distance: SkinDistance;
  readonly limit: number;
  /** Cylinders whose primary starts there, and those whose primary ends there. */
  readonly starts: readonly number[];
  readonly ends: readonly number[];
}

/** The round bar that a collector of primaries takes up: from its inlet plane to the end of its outlet. */
export function collectorEnd(plan: Plan, c: CollectorPlan): { from: Vec3; to: Vec3; diameter: number } {
  const od = Math.max(plan.tube.od, ...plan.tube.steps.map((s) => s.od));
  const n = c.cylinders.length;
  const ring = n === 1 ? 0 : (od + c.inletGap) / (2 * Math.sin(Math.PI / n));
  const { origin, z } = c.frame;
  return {
    from: origin,
    to: plus(origin, z, collectorLength(c, plan)),
    diameter: Math.max(2 * ring + od, c.outlet.od),
  };
}

/** Heads, collectors of primaries, tools and keep-outs of a plan, scans left out. */
export function spaceOf(plan: Plan): OwnSpace[] {
  const { tube, runners, flange } = plan;
  const heads = plan.heads.map((h, i): OwnSpace => {
    const { frame, body } = h;
    const into = (p: Vec3): Vec3 => {
      const rel = minus(p, frame.origin);
      return [inner(rel, frame.x), inner(rel, frame.y), inner(rel, frame.z)];
    };
    return {
      name: `head ${h.name}`,
      distance: body
        ? (p) => {
            const [x, y, z] = into(p);
            const past = [body.from[0] - x, x - body.to[0], body.from[1] - y, y - body.to[1]];
            const across = [Math.max(past[0]!, past[1]!), Math.max(past[2]!, past[3]!)];
            return outside([...across, Math.max(-body.depth - z, z - flange.thickness)]);
          }
        : (p) => into(p)[2] - flange.thickness,
      limit: Math.min(runners.clearance, tube.minStraightPort),
      starts: plan.ports.filter((p) => p.head === i).map((p) => p.cylinder),
      ends: [],
    };
  });
  const joining = plan.collectors.filter((c) => c.from.length === 0);
  const collectors = joining.map((c): OwnSpace => {
    const { from, to, diameter } = collectorEnd(plan, c);
    return {
      name: `collector ${c.name}`,
      distance: barDistance(from, to, diameter / 2, false),
      limit: Math.min(runners.clearance, tube.minStraightInlet, tube.minStraight),
      starts: [],
      ends: c.cylinders,
    };
  });
  const nobody = { starts: [], ends: [] };
  const tools = plan.access.map((a): OwnSpace => {
    const { origin: o, z } = a.frame;
    return {
      name: `access to ${a.name}`,
      distance: barDistance(o, plus(o, z, a.length), a.diameter / 2, false),
      limit: 0,
      ...nobody,
    };
  });
  const keepOuts = plan.keepOuts
    .filter((k) => k.kind !== 'mesh')
    .map(
      (k): OwnSpace => ({ name: `keep-out ${k.name}`, distance: keepOutDistance(k), limit: k.clearance, ...nobody }),
    );
  return [...heads, ...collectors, ...tools, ...keepOuts];
}

/** Distance from the excesses past faces in perpendicular directions: negative when none is past. */
function outside(past: readonly number[]): number {
  const deepest = Math.max(...past);
  return deepest <= 0 ? deepest : Math.hypot(...past.map((x) => Math.max(0, x)));
}

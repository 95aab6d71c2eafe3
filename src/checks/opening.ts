import { directionInto } from '../geometry/frame.js';
import type { Outline } from '../geometry/outline.js';
import { flattenOutline } from '../geometry/outline-flatten.js';
import { outlineArea } from '../geometry/outline-measure.js';
import { dot, type Vec3 } from '../geometry/vec3.js';
import type { Plan, Port } from '../params/plan.js';
import type { FlangePart } from '../parts/flange.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** A ledge up to this height is dressed out with a burr, mm. Common practice, no source. */
const LEDGE = 0.5;

/** The tube's bore may be this part smaller than the opening before it counts as a contraction. Common practice, no source. */
const CONTRACTION = 0.98;

/** Chord error, mm, of the contour a ledge is looked for on: far below what a file can feel. */
const LEDGE_CHORD = 0.005;

/** An opening with its port; the port's axis in the coordinates of the head face. */
interface Place {
  readonly flange: FlangePart;
  readonly port: Port;
  readonly axis: Vec3;
  readonly outline: Outline;
}

const axisOnFace = (plan: Plan, port: Port): Vec3 => directionInto(plan.heads[port.head]!.frame, port.frame.z);

/** Openings of the flange against the bore of the tube welded over them. */
export function openings({ plan, flanges }: CheckContext): Finding[] {
  return flanges.flatMap((f) =>
    f.region.openings.flatMap((o) => {
      const port = plan.ports.find((p) => p.cylinder === o.cylinder)!;
      const place: Place = { flange: f, port, axis: axisOnFace(plan, port), outline: o.outline };
      const bore = plan.tube.od / 2 - plan.tube.wall;
      return [ledge(place, bore), contraction(place, bore)];
    }),
  );
}

/**
 * How far the opening reaches beyond the round bore: there the tube's end stands in the gas. Measured across the port's axis;
 * the contour lies on the head face, and for a tilted port each point of it is taken along the axis.
 */
function ledge({ flange, port, axis, outline }: Place, bore: number): Finding {
  let most = Number.NEGATIVE_INFINITY;
  for (const [x, y] of flattenOutline(outline, LEDGE_CHORD)) {
    const p: Vec3 = [x - port.at[0], y - port.at[1], 0];
    const on = dot(p, axis);
    most = Math.max(most, Math.sqrt(Math.max(0, dot(p, p) - on * on)) - bore);
  }
  return {
    id: 'opening.ledge',
    level: most <= LEDGE ? 'ok' : 'warn',
    place: `${flange.name}, cylinder ${port.cylinder}`,
    value: Math.max(0, most),
    limit: LEDGE,
    unit: 'mm',
    message:
      most <= LEDGE
        ? 'The tube end leaves no ledge facing the gas.'
        : `The opening reaches ${most.toFixed(2)} mm beyond the round bore: form the tube's end to the port (${port.shape}) before welding, so that no ledge faces the gas.`,
  };
}

/** Area of the bore over that of the opening, both across the port's axis. */
function contraction({ flange, port, axis, outline }: Place, bore: number): Finding {
  const ratio = (Math.PI * bore * bore) / (outlineArea(outline) * axis[2]);
  return {
    id: 'opening.area',
    level: ratio >= CONTRACTION ? 'ok' : 'warn',
    place: `${flange.name}, cylinder ${port.cylinder}`,
    value: ratio,
    limit: CONTRACTION,
    unit: 'ratio',
    message:
      ratio >= CONTRACTION
        ? `The bore has ${(100 * ratio).toFixed(1)} % of the opening's area.`
        : `The bore has only ${(100 * ratio).toFixed(1)} % of the opening's area: a contraction. A larger tube keeps the area.`,
  };
}

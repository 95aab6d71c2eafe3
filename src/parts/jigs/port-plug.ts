import { directionInto, type Frame, frameFacing, pointFrom, WORLD } from '../../geometry/frame.js';
import { flattenOutline } from '../../geometry/outline/flatten.js';
import { offsetOutline } from '../../geometry/outline/offset.js';
import { translateOutline } from '../../geometry/outline/transform.js';
import { startOf } from '../../geometry/path/path.js';
import { pathInto } from '../../geometry/path/placed.js';
import { difference, placed, type Solid, trimmed, union } from '../../geometry/solid/solid.js';
import { bar, prism } from '../../geometry/solid/solid-shapes.js';
import { textSolid, textStrokes } from '../../geometry/solid/text-solid.js';
import { sub2, type Vec2 } from '../../geometry/vec2.js';
import { angleBetween } from '../../geometry/vec3.js';
import type { Plan } from '../../params/plan.js';
import type { FlangePart } from '../flange/flange.js';
import type { SolidPart } from '../part.js';
import { printedPart } from '../printed-part.js';
import type { Piece } from '../tube/pieces.js';
import type { JointKey } from './joint-keys.js';
import { screwPilot } from './joint-screw.js';
import { spigot } from './key.js';
import { ENGRAVED } from './printed-writing.js';
import { LIP, notchOf, proofThickness } from './proof-plate.js';
import { tabSolid } from './proof-solid.js';
import { cordRadius } from './tube-bore.js';

/**
 * The plug of one port: fills the opening of the printed flange, carries a lip on the outer face as thick as the steel flange
 * is thicker than the printed one, and on it, along the port's axis, the spigot that holds the first dummy tube in its
 * clocking, standing where the steel tube will. It prints on its head side, which bears the cylinder's number.
 * Throws RangeError when the flange has no opening for the cylinder.
 */
export function portPlug(
  plan: Plan,
  flange: FlangePart,
  cylinder: number,
  first: Piece,
  { key, length, screw }: JointKey,
): SolidPart {
  const port = plan.ports.find((p) => p.cylinder === cylinder)!;
  const opening = flange.region.openings.find((o) => o.cylinder === cylinder);
  if (!opening) throw new RangeError(`${flange.name} has no opening for cylinder ${cylinder}`);
  const head = plan.heads[flange.head]!.frame;
  const at: Frame = { ...head, origin: pointFrom(head, [port.at[0], port.at[1], 0]) };
  const outline = translateOutline(opening.outline, [-port.at[0], -port.at[1]]);
  const [plate, steel] = [proofThickness(plan), plan.flange.thickness];
  const { fit, bed } = plan.jig;
  const cord = cordRadius(plan.jig.cord, fit);

  const stem = prism(flattenOutline(offsetOutline(outline, -fit)), 0, steel);
  const start = startOf(pathInto(at, first.path));
  const axis = frameFacing(start.point, start.direction, directionInto(at, first.startNormal));
  const seat = between(placed(bar(first.od / 2, -4 * steel, 4 * steel), axis), plate, steel);
  const lip = prism(flattenOutline(offsetOutline(outline, LIP)), plate, steel);
  const notch = notchOf(flange.region, opening);
  const tab = notch ? [tabSolid({ ...notch, at: sub2(notch.at, port.at) }, plate, steel, 0)] : [];
  const body = union(between(stem, 0, steel), seat, lip, ...tab);
  // on a tilted port the face falls away under one side of the spigot: sink it as much further
  const sunk = 1 + key.radius * Math.tan(angleBetween(axis.z, [0, 0, 1]));
  const solid = difference(
    length > 0 ? union(body, spigot(key, length, axis, sunk)) : body,
    numberBelow(String(cylinder), flattenOutline(outline)),
    ...(screw ? [screwPilot(axis, length, directionInto(at, screw), key.radius, cord ?? 0)] : []),
    // the cord goes on down the port's axis and out at the head side
    ...(cord === null ? [] : [placed(bar(cord, -4 * steel, length + 1), axis)]),
  );
  return printedPart(
    {
      name: `plug-${cylinder}`,
      kind: 'port-plug',
      title: `Plug for the port of cylinder ${cylinder}`,
      solid,
      at,
      up: WORLD,
      chamfer: plan.jig.chamfer,
    },
    bed,
  );
}

function between(solid: Solid, low: number, high: number): Solid {
  const above = trimmed(solid, { point: [0, 0, low], normal: [0, 0, 1] });
  return trimmed(above, { point: [0, 0, high], normal: [0, 0, -1] });
}

/** The number engraved in the head side, to be read from there. */
function numberBelow(text: string, opening: readonly Vec2[]): Solid {
  const room = Math.min(...opening.map(([x, y]) => Math.hypot(x, y)));
  const strokes = textStrokes(text, Math.min(12, room));
  return placed(textSolid(strokes, -ENGRAVED, 1), { origin: [0, 0, 0], x: [-1, 0, 0], y: [0, 1, 0], z: [0, 0, -1] });
}

import { pointFrom } from '../../geometry/frame.js';
import { endOf } from '../../geometry/path/path.js';
import type { Plane } from '../../geometry/plane.js';
import { along, dot, length, perpendicularTo, sub, unit, type Vec3 } from '../../geometry/vec3.js';
import type { Plan } from '../../params/plan.js';
import type { RoutedPrimary, RoutedSecondary, RoutedTube } from '../../routing/routed.js';
import type { FlangePart } from '../flange/flange.js';
import type { SolidPart } from '../part.js';
import { type Piece, piecesOf } from '../tube/pieces.js';
import { dummyTube } from './dummy-tube.js';
import { type JointKey, jointKeys } from './joint-keys.js';
import { portPlug } from './port-plug.js';
import { type PrintedSpan, printedSpans } from './printed-spans.js';

/** Plug and dummy tubes of one primary, from the head to its collector. */
export function primaryJigs(plan: Plan, primary: RoutedPrimary, flanges: readonly FlangePart[]): SolidPart[] {
  const pieces = dummiesOf(plan, primary);
  const joints = jointKeys(pieces, plan.jig, pieces[0]!.od, outOfHolder(plan, primary));
  const flange = flanges.find((f) => f.cylinders.includes(primary.cylinder))!;
  const face = flangeFace(plan, primary.cylinder);
  return [portPlug(plan, flange, primary.cylinder, pieces[0]!, joints[0]!), ...dummyTubes(plan, pieces, joints, face)];
}

/** The flange's outer face a primary starts at: world, normal away from the head; null for a secondary. */
export function flangeFace(plan: Plan, cylinder: number | null): Plane | null {
  const port = plan.ports.find((p) => p.cylinder === cylinder);
  if (port === undefined) return null;
  const head = plan.heads[port.head]!.frame;
  return { point: pointFrom(head, [0, 0, plan.flange.thickness]), normal: head.z };
}

/** Dummy tubes of one secondary, from the stem of the collector it comes from to the next. */
export function secondaryJigs(plan: Plan, secondary: RoutedSecondary): SolidPart[] {
  const pieces = dummiesOf(plan, secondary);
  return dummyTubes(plan, pieces, secondaryKeys(plan, secondary, pieces), null);
}

/** The key a secondary stands on at the outlet it comes from. */
export const outletKey = (plan: Plan, secondary: RoutedSecondary): JointKey =>
  secondaryKeys(plan, secondary, dummiesOf(plan, secondary))[0]!;

const secondaryKeys = (plan: Plan, secondary: RoutedSecondary, pieces: readonly Piece[]): JointKey[] =>
  // the stem it stands on has no screw
  jointKeys(pieces, plan.jig, plan.collectors[secondary.from]!.outlet.od, outOfHolder(plan, secondary)).map((j, i) =>
    i === 0 ? { ...j, screw: null } : j,
  );

/** The way out of a collector's holder for the screw of a tube's last key: square to the tube's end, away from the other tubes. World. */
export function outOfHolder(plan: Plan, tube: RoutedTube): Vec3 {
  const { origin } = plan.collectors[tube.collector]!.frame;
  const { point, direction } = endOf(tube.path);
  const out = sub(point, origin);
  const across = along(out, direction, -dot(out, direction));
  return length(across) > 1 ? unit(across) : perpendicularTo(direction);
}

const dummiesOf = (plan: Plan, tube: RoutedTube): readonly PrintedSpan[] =>
  printedSpans(piecesOf(plan, tube), plan.jig.bed, plan.jig.keyLength);

function dummyTubes(
  plan: Plan,
  pieces: readonly PrintedSpan[],
  joints: readonly JointKey[],
  face: Plane | null,
): SolidPart[] {
  return pieces.map((piece, i) =>
    dummyTube({
      piece,
      start: joints[i]!,
      end: joints[i + 1]!,
      face: piece.first ? face : null,
      jig: plan.jig,
    }),
  );
}

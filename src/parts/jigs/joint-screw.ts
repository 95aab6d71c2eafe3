import { type Frame, frameFacing } from '../../geometry/frame.js';
import { placed, type Solid } from '../../geometry/solid/solid.js';
import { bar } from '../../geometry/solid/solid-shapes.js';
import { along, type Vec3 } from '../../geometry/vec3.js';

/** Clearance hole of an M3 screw: ISO 273, series medium, mm. */
export const SCREW_HOLE = 3.4;

/** Hole an M3 screw cuts its own thread in: the tapping drill of coarse M3 (ISO 2306), mm. */
export const SCREW_PILOT = 2.5;

/** Plastic left along a key on either side of the screw's hole, mm. */
const BESIDE = 1.6;

/** Plastic left between a screw's end and the cord, mm. */
const BEFORE_CORD = 0.8;

/** Whether a key of that length, mm, has room for a screw across its middle. */
export const takesScrew = (length: number): boolean => length >= SCREW_HOLE + 2 * BESIDE;

/**
 * The hole through the part with the socket, from the key's axis out past its skin. `joint` as for the socket: z into the part;
 * `way` is out to the screw's head; `reach` how far the part's skin is from the axis, mm.
 */
export function screwHole(joint: Frame, length: number, way: Vec3, reach: number): Solid {
  return placed(bar(SCREW_HOLE / 2, 0, reach + 2), crossing(joint, length, way));
}

/** The hole in a spigot of that length on a joint: z out of the part that carries it. It ends at the axis, or before a cord of `cord` mm radius. */
export function screwPilot(joint: Frame, length: number, way: Vec3, radius: number, cord: number): Solid {
  return placed(bar(SCREW_PILOT / 2, cord > 0 ? cord + BEFORE_CORD : 0, radius + 2), crossing(joint, length, way));
}

const crossing = (joint: Frame, length: number, way: Vec3): Frame =>
  frameFacing(along(joint.origin, joint.z, length / 2), way, joint.z);

/** Lengths M3 screws are commonly sold in, mm. */
const SOLD = [6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 50];

/** The longest common screw, mm, whose end stays in the pilot when its head lies on a tube of that radius; null when none does. */
export const screwLength = (tubeRadius: number, cord: number): number | null =>
  SOLD.findLast((l) => l <= tubeRadius - (cord > 0 ? cord + BEFORE_CORD : 0)) ?? null;

import { directionInto, type Frame, pointInto } from '../geometry/frame.js';
import { unit, type Vec3 } from '../geometry/vec3.js';
import { component10, length7 } from './last-digits.js';

/** A place of the world in the axes of a frame of either hand, on length steps, mm. */
export function seenPoint(frame: Frame, p: Vec3): Vec3 {
  const [x, y, z] = pointInto(frame, p);
  return [length7(x), length7(y), length7(z)];
}

/** A unit direction of the world in the axes of a frame of either hand, from components on their steps. */
export function seenWay(frame: Frame, v: Vec3): Vec3 {
  const [x, y, z] = directionInto(frame, v);
  return unit([component10(x), component10(y), component10(z)]);
}

/** A frame of the world in the axes of another; of the other hand when that is left-handed. */
export const seenFrame = (frame: Frame, f: Frame): Frame => ({
  origin: seenPoint(frame, f.origin),
  x: seenWay(frame, f.x),
  y: seenWay(frame, f.y),
  z: seenWay(frame, f.z),
});

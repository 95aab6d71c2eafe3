import { directionFrom, directionInto, type Frame, pointFrom, pointInto } from './frame.js';
import type { Path } from './path.js';
import type { Vec3 } from './vec3.js';

/** A world path in the coordinates of a frame. */
export const pathInto = (frame: Frame, path: Path): Path =>
  mapped(
    path,
    (p) => pointInto(frame, p),
    (v) => directionInto(frame, v),
  );

/** A path given in a frame as a world path. */
export const pathFrom = (frame: Frame, path: Path): Path =>
  mapped(
    path,
    (p) => pointFrom(frame, p),
    (v) => directionFrom(frame, v),
  );

function mapped(path: Path, point: (p: Vec3) => Vec3, direction: (v: Vec3) => Vec3): Path {
  return {
    segments: path.segments.map((s) => {
      const moved = { from: point(s.from), direction: direction(s.direction) };
      return s.kind === 'straight'
        ? { ...s, ...moved }
        : { ...s, ...moved, centre: point(s.centre), normal: direction(s.normal) };
    }),
  };
}

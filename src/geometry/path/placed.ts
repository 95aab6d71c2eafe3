import { directionInto, type Frame, pointInto } from '../frame.js';
import type { Path } from './path.js';

/** A world path in the coordinates of a frame. */
export const pathInto = (frame: Frame, path: Path): Path => ({
  segments: path.segments.map((s) => {
    const moved = { from: pointInto(frame, s.from), direction: directionInto(frame, s.direction) };
    return s.kind === 'straight'
      ? { ...s, ...moved }
      : { ...s, ...moved, centre: pointInto(frame, s.centre), normal: directionInto(frame, s.normal) };
  }),
});

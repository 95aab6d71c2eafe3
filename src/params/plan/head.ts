import type { Frame } from '../../geometry/frame.js';
import type { Outline } from '../../geometry/outline/outline.js';
import type { Vec2 } from '../../geometry/vec2.js';

/** One head face with what stands on it. */
export interface Head {
  /** As the plan calls it. */
  readonly name: string;
  /** z leaves the head, x runs along the crank, y is up along the face. The face is z = 0. */
  readonly frame: Frame;
  /** Studs and bolts that hold the flange. */
  readonly bolts: readonly FlangeBolt[];
  /** The metal behind the face that no tube may enter: null means the whole half-space behind the face; else a box in the head's frame. */
  readonly body: HeadBody | null;
}

/** The metal of a head as a box, in the head's frame. */
export interface HeadBody {
  /** Lowest and highest x and y, mm, in the head's frame. */
  readonly from: Vec2;
  /** The other corner. */
  readonly to: Vec2;
  /** How far the metal reaches behind the face, mm. */
  readonly depth: number;
}

/** A bolt of the head that holds the flange. */
export interface FlangeBolt {
  /** On the head face, mm, in the head's frame. */
  readonly at: Vec2;
  /** As the plan gives it: M8, 5/16. */
  readonly thread: string;
  /** Clearance hole, mm: ISO 273 by thread and fit unless the plan gives its own. */
  readonly holeDiameter: number;
  /** Nominal thread diameter, mm. */
  readonly threadDiameter: number;
  /** Outside diameter of the socket that turns it, mm. */
  readonly socketDiameter: number;
}

/** An exhaust port: where the gas leaves the head. */
export interface Port {
  /** Cylinder number, from 1. */
  readonly cylinder: number;
  /** Index into `Plan.heads`. */
  readonly head: number;
  /** Centre on the head face, mm, in the head's frame. */
  readonly at: Vec2;
  /** World frame at the centre of the port on the head face; z is the way the gas leaves. */
  readonly frame: Frame;
  /** Outline on the head face about the port's centre, counter-clockwise, mm, in the head's x and y. */
  readonly outline: Outline;
  /** Shape in words for reports: 'oval 44 x 36 mm'. */
  readonly shape: string;
  /** Length of the port inside the head, mm; only tuning uses it. */
  readonly lengthInHead: number | null;
}

import { slotOutline } from '../../geometry/outline/make.js';
import { offsetOutline } from '../../geometry/outline/offset.js';
import type { Outline } from '../../geometry/outline/outline.js';
import type { Vec2 } from '../../geometry/vec2.js';

/** A hole for a bolt or dowel: a slot where it is longer than wide. */
export interface EdgeHole {
  readonly at: Vec2;
  /** Width, length over all, mm, and direction, rad. */
  readonly width: number;
  readonly length: number;
  readonly angle: number;
}

/** What the outer edge goes round. */
export interface FlangeCore {
  /** Openings on the head face and their centres, mm. */
  readonly openings: readonly { readonly at: Vec2; readonly outline: Outline }[];
  readonly holes: readonly EdgeHole[];
  /** Least metal from an opening and from a hole to the outside, mm. */
  readonly portEdge: number;
  readonly holeEdge: number;
  /** Radius of inner corners, mm. */
  readonly fillet: number;
}

/** A plate before it is smoothed: the outer edge first, then windows, all counter-clockwise; edges wider than asked by `extra` mm. */
export type PlateShape = (core: FlangeCore, extra: number) => readonly Outline[];

/** A hole with so much metal round it, mm. */
export const grownHole = ({ at, width, length, angle }: EdgeHole, by: number): Outline =>
  slotOutline(at, length + 2 * by, width + 2 * by, angle);

/** The metal every opening asks for. */
export const padsOf = (core: FlangeCore, extra: number): readonly Outline[] =>
  core.openings.map((o) => offsetOutline(o.outline, core.portEdge + extra));

/** The metal a hole asks for. */
export const bossOf = (core: FlangeCore, hole: EdgeHole, extra: number): Outline =>
  grownHole(hole, core.holeEdge + extra);

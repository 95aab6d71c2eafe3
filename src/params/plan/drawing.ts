import type { Vec2 } from '../../geometry/vec2.js';

/** How flat parts are drawn for the cutter and printed. */
export interface DrawingPlan {
  /** Unit of the DXF. */
  readonly units: 'mm' | 'in';
  /** Version of the DXF. */
  readonly version: 'r2007' | 'r12';
  /** Whether outlines are polylines with bulges or lines and arcs. */
  readonly curves: 'polylines' | 'lines_and_arcs';
  /** Paper of the prints. */
  readonly paper: 'a4' | 'letter';
  /** True to mark numbers, the way up and the name on the part as single strokes. */
  readonly engrave: boolean;
  /** Null when parts are not laid out on sheets. */
  readonly sheet: SheetPlan | null;
}

/** The sheet flat parts are laid out on. */
export interface SheetPlan {
  /** mm. */
  readonly size: Vec2;
  /** Least gap between parts, mm. */
  readonly gap: number;
  /** Least gap to the edge of the sheet, mm. */
  readonly margin: number;
  /** Sets of all parts. */
  readonly count: number;
}

import type { Outline } from '../../geometry/outline/outline.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { LengthUnit } from '../../params/units.js';

/**
 * A flat development at 1:1, mm. A wrap is paper laid round a tube: x runs round it, y along its axis. A sheet is what is cut from
 * plate and bent.
 */
export interface Pattern {
  /** Safe as a file name: 'collector-inlet'. */
  readonly name: string;
  /** What it is, in words. */
  readonly title: string;
  /** Wrapped round a tube, or cut from sheet and rolled. */
  readonly use: 'wrap' | 'sheet';
  /** How many pieces it marks. */
  readonly count: number;
  /** What is cut out, without the tab. */
  readonly outline: Outline;
  /** Openings in it. */
  readonly holes: readonly Outline[];
  /** Strip beyond the outline that is taped or glued under the other end; null for a sheet. */
  readonly tab: Outline | null;
  /** Lines marked on it. */
  readonly lines: readonly PatternLine[];
  /** What it is wrapped round; null for a sheet. */
  readonly tube: {
    /** Outside diameter, mm. */
    readonly od: number;
    /** Wall, mm. */
    readonly wall: number;
    /** Side the paper lies on. */
    readonly side: 'outside' | 'inside';
  } | null;
  /** Plate the sheet is cut from; null for a wrap. */
  readonly plate: {
    /** Thickness, mm. */
    readonly thickness: number;
    /** As the plan names it. */
    readonly material: string;
  } | null;
  /** Largest distance of the drawn outline from the true development, mm. */
  readonly deviation: number;
  /** Unit its words say lengths in: the plan's. */
  readonly units: LengthUnit;
  /** Sentences for the one who uses it. */
  readonly notes: readonly string[];
}

/** A line on a pattern. */
export interface PatternLine {
  /** `reference`: lies on the tube's clocking mark; `quarter`: every 90 degrees; `bend`: where a sheet is bent or rolled; `guide`: anything else. */
  readonly kind: 'reference' | 'quarter' | 'bend' | 'guide';
  /** Corners, mm. */
  readonly points: readonly Vec2[];
  /** Words beside it. */
  readonly label: string;
}

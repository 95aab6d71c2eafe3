import { millimetres } from '../units.js';

/** How freely a bolt passes its hole: ISO 273 series fine, medium, coarse; close, normal, loose of ASME B18.2.8. */
export type BoltFit = 'fine' | 'medium' | 'coarse';

interface BoltSize {
  /** Nominal thread diameter, mm. */
  readonly thread: number;
  /** Clearance hole by fit, mm. */
  readonly hole: Readonly<Record<BoltFit, number>>;
}

const metric = (thread: number, fine: number, medium: number, coarse: number): BoltSize => ({
  thread,
  hole: { fine, medium, coarse },
});

const inch = (thread: number, close: number, normal: number, loose: number): BoltSize => ({
  thread: millimetres(thread, 'in'),
  hole: {
    fine: millimetres(close, 'in'),
    medium: millimetres(normal, 'in'),
    coarse: millimetres(loose, 'in'),
  },
});

/**
 * Threads of flange bolts and their clearance holes.
 * Metric: ISO 273. Inch: ASME B18.2.8; normal is the drill of the table, loose its least hole, close is from memory.
 */
export const BOLT_SIZES = {
  M6: metric(6, 6.4, 6.6, 7),
  M8: metric(8, 8.4, 9, 10),
  M10: metric(10, 10.5, 11, 12),
  M12: metric(12, 13, 13.5, 14.5),
  '5/16': inch(5 / 16, 0.328, 11 / 32, 0.359),
  '3/8': inch(3 / 8, 0.391, 13 / 32, 0.422),
  '7/16': inch(7 / 16, 0.453, 15 / 32, 0.484),
} as const satisfies Record<string, BoltSize>;

/** A thread the table knows. */
export type BoltThread = keyof typeof BOLT_SIZES;

/** The threads of the table, in its order. */
export const BOLT_THREADS = Object.keys(BOLT_SIZES) as [BoltThread, ...BoltThread[]];

/** Nominal diameter of a thread, mm. */
export const threadDiameter = (thread: BoltThread): number => BOLT_SIZES[thread].thread;

/** Clearance hole of a thread, mm. */
export const clearanceHole = (thread: BoltThread, fit: BoltFit): number => BOLT_SIZES[thread].hole[fit];

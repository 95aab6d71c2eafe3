import { millimetres } from '../units.js';
import type { BoltThread } from './bolt-holes.js';

/** What stands on the flange where a bolt is, mm. */
export interface BoltHead {
  /** Across flats and across corners of the hexagon. */
  readonly flats: number;
  readonly corners: number;
  /** Outside diameter of a plain washer. */
  readonly washer: number;
}

const head = (flats: number, corners: number, washer: number): BoltHead => ({ flats, corners, washer });

/** An inch hexagon: across corners by its shape, as ASME B18.2.1 rounds it. */
const inchHead = (flats: number, washer: number): BoltHead =>
  head(millimetres(flats, 'in'), (millimetres(flats, 'in') * 2) / Math.sqrt(3), millimetres(washer, 'in'));

/**
 * Heads, nuts and washers by thread. Metric: ISO 4032, least across corners; heads of ISO 4014 have the same across flats. Washers:
 * ISO 7089, from memory. Inch: hexagons of ASME B18.2.1 and narrow washers of ASME B18.21.1, all from memory.
 */
export const BOLT_HEADS: Readonly<Record<BoltThread, BoltHead>> = {
  M6: head(10, 11.05, 12),
  M8: head(13, 14.38, 16),
  M10: head(16, 17.77, 20),
  M12: head(18, 20.03, 24),
  '5/16': inchHead(1 / 2, 11 / 16),
  '3/8': inchHead(9 / 16, 13 / 16),
  '7/16': inchHead(5 / 8, 59 / 64),
};

import type { Measured } from './as-built.js';

/** What each kind of measurement may be off by, plus and minus mm, with care. Common practice, no source: a file may give its own. */
const USUAL_UNCERTAINTY: Readonly<Record<Exclude<Measured['kind'], 'pieces'>, number>> = {
  length: 0.5,
  string: 1,
  water: 1.5,
  points: 0.5,
};

/** The same for every piece that was measured: those of a tube add up as the root of the sum of their squares. */
const ONE_PIECE = 0.3;

/**
 * What the length of a tube may be off by, plus and minus mm, by the way it was measured. Measurements that do not depend on each
 * other add as squares: JCGM 100:2008 (GUM), 5.1.2 (from memory).
 */
export const usualUncertainty = (measured: Measured): number =>
  measured.kind === 'pieces' ? ONE_PIECE * Math.sqrt(measured.pieces.length) : USUAL_UNCERTAINTY[measured.kind];

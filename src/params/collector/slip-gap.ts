/** How far a sleeve goes on over the collector's own tube, where it is welded, mm. Our choice. */
export const SLIP_LAND = 6;

/** Sleeves on neighbouring inlets, mm and rad. */
export interface SleevesOf {
  readonly count: number;
  readonly wall: number;
  readonly fit: number;
  /** Angle between an inlet and the collector's axis. */
  readonly halfAngle: number;
}

/** Least gap between neighbouring tubes at the inlet plane, mm, for their sleeves to pass each other, the lands on the converging tubes too. */
export const leastSlipGap = ({ count, wall, fit, halfAngle }: SleevesOf): number =>
  2 * (fit + wall + SLIP_LAND * Math.sin(halfAngle) * Math.sin(Math.PI / count));

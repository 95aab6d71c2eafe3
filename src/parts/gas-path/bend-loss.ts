import { power } from '../../geometry/power.js';
import { frictionFactor } from '../../tuning/gas/wall-effects.js';
import { craneLoss } from './bend-crane.js';
import { idelchikLoss } from './bend-idelchik.js';
import { rennelsLoss } from './bend-rennels.js';

/** A bend as the gas meets it, mm and rad. */
export interface GasBend {
  readonly bore: number;
  readonly clr: number;
  readonly angle: number;
  readonly roughness: number;
}

/** Loss coefficients of one bend by three books: on the mean dynamic pressure, friction within the bend included. */
export interface BendLoss {
  readonly crane: number;
  readonly idelchik: number;
  readonly rennels: number;
  /** The part of each that a straight pipe as long as the arc would lose too. */
  readonly friction: number;
}

/** Reynolds number the losses are taken at: the order of exhaust pulses; from half to twice of it K changes by a tenth at most. */
const REYNOLDS = 1e5;

/** How far measurements of one bend lie from each other, as a part: books and their data scatter so (Beij, NBS RP1110, 1938; common finding). */
export const BEND_SCATTER = 0.4;

/** Loss of a bend by Crane, Idelchik and Rennels. */
export function bendLoss({ bore, clr, angle, roughness }: GasBend): BendLoss {
  const friction = frictionFactor(REYNOLDS, power(roughness / (3.7 * bore), 1.11));
  const radius = clr / bore;
  return {
    crane: craneLoss(bore, radius, angle),
    idelchik: idelchikLoss(radius, angle, friction),
    rennels: rennelsLoss(radius, angle, friction),
    friction: friction * radius * angle,
  };
}

/** The one in the middle. */
export const middleLoss = ({ crane, idelchik, rennels }: BendLoss): number =>
  [crane, idelchik, rennels].sort((a, b) => a - b)[1]!;

/** What a bend loses beyond a straight pipe as long: for a calculation that has friction of its own all along. */
export const lossBeyondFriction = (loss: BendLoss): number => Math.max(0, middleLoss(loss) - loss.friction);

/** Losses of bends after each other, each book by itself. */
export const sumOfLosses = (losses: readonly BendLoss[]): BendLoss => ({
  crane: losses.reduce((s, l) => s + l.crane, 0),
  idelchik: losses.reduce((s, l) => s + l.idelchik, 0),
  rennels: losses.reduce((s, l) => s + l.rennels, 0),
  friction: losses.reduce((s, l) => s + l.friction, 0),
});

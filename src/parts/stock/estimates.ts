import { inletTube } from '../../params/collector/inlet-tube.js';
import type { Plan } from '../../params/plan.js';
import { collectorGeometry } from '../collector/merge-geometry.js';
import { mergeWelds } from '../collector/merge-seams.js';
import { knownDensity } from '../plate-density.js';
import type { CutPiece } from '../tube/cut-list.js';

/** Wall section of a tube, mm2. */
const wallArea = (od: number, wall: number): number => Math.PI * (od - wall) * wall;

/** Mass of a length of tube, kg: (D - T) T pi times density; for 7850 kg/m3 the 0.0246615 (D - T) T per metre of EN 10220. mm, kg/m3. */
export const tubeMass = (od: number, wall: number, length: number, density: number): number =>
  wallArea(od, wall) * length * density * 1e-9;

/** Density of a plan's tube, kg/m3: the plan's own, else by its material; null where neither says. */
export const tubeDensity = (plan: Plan): number | null => plan.stock.density ?? knownDensity(plan.tube.material);

/** What goes into the tubes beside stock. */
export interface Estimates {
  /** kg; null where the density is not known. */
  readonly tubeMass: number | null;
  /** mm. */
  readonly weldLength: number;
  /** kg. */
  readonly fillerMass: number | null;
  /** Litres. */
  readonly purgeVolume: number;
}

/**
 * Estimates from the pieces of all tubes.
 * Mass: wall section times length. Weld: once round the middle of the wall, pi (OD - wall), at both ends of every tube and between its
 * pieces, of the larger tube at a step; then the seams between the tubes of every merge and round its end onto the cone, by its tubes'
 * wall; the cone's own seam and what is welded behind it are left out. Filler: of a butt a bead as large as a square of the wall, of the fillet at a flange half the square of its leg; common
 * practice without a source, the wire really used is from half to twice that. Purge: the bores once; common practice, no source, is to
 * let several times as much flow before welding.
 */
export function estimatesOf(plan: Plan, pieces: readonly CutPiece[]): Estimates {
  const density = tubeDensity(plan);
  let [metal, weld, filler, bore] = [0, 0, 0, 0];
  const join = ({ od, wall }: CutPiece, bead: number): void => {
    const round = Math.PI * (od - wall);
    weld += round;
    filler += round * bead;
  };
  pieces.forEach((c, i) => {
    metal += wallArea(c.od, c.wall) * c.length;
    bore += (Math.PI / 4) * (c.od - 2 * c.wall) ** 2 * c.length;
    const butt = c.wall ** 2;
    if (c.piece.first) join(c, c.piece.cylinder === null ? butt : plan.flange.weldLeg ** 2 / 2);
    const next = c.piece.last ? c : pieces[i + 1]!;
    join(next.od >= c.od ? next : c, Math.max(butt, next.wall ** 2));
  });
  for (const collector of plan.collectors) {
    const tube = inletTube(plan, collector);
    const { seams, round } = mergeWelds(collectorGeometry(collector, tube));
    weld += seams + round;
    filler += (seams + round) * tube.wall ** 2;
  }
  const mass = (volume: number): number | null => (density === null ? null : volume * density * 1e-9);
  return { tubeMass: mass(metal), weldLength: weld, fillerMass: mass(filler), purgeVolume: bore * 1e-6 };
}

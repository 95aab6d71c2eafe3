import { power } from '../../geometry/power.js';
/** A pipe as the gas sees it, cut into cells of one length. SI units. */
export interface DuctShape {
  /** Length of a cell, m. */
  readonly dx: number;
  /** Area at every face, from the start to the end: one more than cells, m2. */
  readonly faceArea: Float64Array;
  /** Mean area of every cell, m2. */
  readonly area: Float64Array;
  /** Volume of every cell, m3. */
  readonly volume: Float64Array;
  /** Hydraulic diameter of every cell, m: for friction and heat. */
  readonly diameter: Float64Array;
  /** Temperature of the wall at every cell, K. */
  readonly wall: Float64Array;
  /** Loss coefficient of bends for every metre of the cell, 1/m: K over the length of the bend. */
  readonly bendLoss: Float64Array;
  /** Haaland's term of the roughness of every cell. */
  readonly rough: Float64Array;
  /** Part of a bare wall's heat loss that this wall lets through, 0 to 1. */
  readonly heatShare: number;
}

/** Gas in one place: density kg/m3, velocity m/s, pressure Pa, mass fraction of burned gas. */
export interface GasPoint {
  readonly density: number;
  readonly velocity: number;
  readonly pressure: number;
  readonly burned: number;
}

/** What a duct is made of. `area` in m2 at a distance from its start, m. */
export interface DuctDesign {
  readonly length: number;
  readonly cells: number;
  readonly area: (x: number) => number;
  /** Wall temperature, K, at a distance from the start; left out, as warm as the gas at first: no heat is lost. */
  readonly wall?: (x: number) => number;
  /** Loss coefficient for every metre at a distance from the start, 1/m. */
  readonly bendLoss?: (x: number) => number;
  /** Height of the wall's roughness, m; 0 is smooth. */
  readonly roughness?: number;
  /** Part of a bare wall's heat loss, 0 to 1; 1 when left out. */
  readonly heatShare?: number;
}

/** Haaland's term of the roughness, (roughness / (3.7 diameter))^1.11; both in m. */
export const roughTerm = (roughness: number, diameter: number): number => power(roughness / (3.7 * diameter), 1.11);

/** Points of the integral that gives a cell its volume (Gauss-Legendre, three points: exact for cones). */
const GAUSS = [
  [0.5 - Math.sqrt(0.15), 5 / 18],
  [0.5, 8 / 18],
  [0.5 + Math.sqrt(0.15), 5 / 18],
] as const;

/** The cells of a duct. Throws RangeError for a length, number of cells or area that is not positive. */
export function ductShape(design: DuctDesign): DuctShape {
  const { length, cells, area, wall = () => Number.NaN, bendLoss = () => 0, roughness = 0, heatShare = 1 } = design;
  if (!(length > 0 && Number.isInteger(cells) && cells >= 2)) {
    throw new RangeError(`a duct needs a length and two cells or more, not ${length} m in ${cells} cells`);
  }
  const dx = length / cells;
  // a sudden change of section on a face would not agree with the volumes beside it: each face takes the mean of its two sides
  const beside = dx * 1e-6;
  const faceArea = Float64Array.from({ length: cells + 1 }, (_, i) => {
    const [before, after] = [Math.max(i * dx - beside, 0), Math.min(i * dx + beside, length)];
    return (area(before) + area(after)) / 2;
  });
  const middle = (of: (x: number) => number): Float64Array =>
    Float64Array.from({ length: cells }, (_, i) => of((i + 0.5) * dx));
  const volume = Float64Array.from({ length: cells }, (_, i) =>
    GAUSS.reduce((sum, [at, weight]) => sum + weight * area((i + at) * dx) * dx, 0),
  );
  if (![...faceArea, ...volume].every((a) => a > 0)) throw new RangeError('a duct has an area above zero everywhere');
  const mean = volume.map((v) => v / dx);
  const diameter = mean.map((a) => Math.sqrt((4 * a) / Math.PI));
  const rough = diameter.map((d) => roughTerm(roughness, d));
  return {
    dx,
    faceArea,
    area: mean,
    volume,
    diameter,
    wall: middle(wall),
    bendLoss: middle(bendLoss),
    rough,
    heatShare,
  };
}

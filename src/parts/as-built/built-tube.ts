import type { Measured, MeasuredPiece, MeasuredTube } from '../../params/as-built/as-built.js';
import { usualUncertainty } from '../../params/as-built/uncertainty.js';
import type { RoutedSection, RoutedTube } from '../../routing/routed.js';
import type { TubeCuts } from '../tube/tube-cuts.js';
import { shapeFromIntersections, shapeFromTangents, shapeLength, shapeOfPath, type TubeShape } from './tube-shape.js';

/** A tube as it was built, mm. */
export interface BuiltTube {
  readonly tube: RoutedTube;
  readonly cuts: TubeCuts;
  readonly measured: Measured;
  /** True length of the centreline, from the head face or the outlet to the collector inlet. */
  readonly length: number;
  /** Plus and minus. */
  readonly uncertainty: number;
  /** Straights and bends as they are; null where only a length was measured. */
  readonly shape: TubeShape | null;
}

/** A tube of a plan with its pieces, and what fills the flange's opening before it, mm3. */
export interface TubeToMeasure {
  readonly tube: RoutedTube;
  readonly cuts: TubeCuts;
  readonly openingVolume: number;
}

/** The true length of a tube from what was measured. Throws RangeError when points do not make a tube. */
export function builtTube({ tube, cuts, openingVolume }: TubeToMeasure, m: MeasuredTube): BuiltTube {
  const { measured } = m;
  const uncertainty = m.uncertainty ?? usualUncertainty(measured);
  const missing = m.begins === 'flange' ? cuts.start : 0;
  const built = (length: number, shape: TubeShape | null = null): BuiltTube => ({
    tube,
    cuts,
    measured,
    length,
    uncertainty,
    shape,
  });
  switch (measured.kind) {
    case 'length':
      return built(measured.length + missing);
    case 'string':
      return built(lengthByStrings(measured.inside, measured.outside) + missing);
    case 'water': {
      const inTube = measured.volume - (m.begins === 'port' ? openingVolume : 0);
      return built(runFilledBy(inTube, tube.sections, cuts.start));
    }
    case 'pieces': {
      const shape = shapeOfPieces(measured.pieces, tube, cuts);
      return built(shapeLength(shape) + cuts.total - cuts.length, shape);
    }
    case 'points': {
      const found = shapeOfPoints(measured, tube);
      const [first, ...rest] = found.straights;
      const shape = { ...found, straights: [first! + missing, ...rest] };
      // where the welds add to the route, the points have it in them
      return built(shapeLength(shape), shape);
    }
  }
}

/**
 * Centreline from two strings on opposite sides of a tube of one outside diameter, mm. Along a bend a line that lies at an angle a to the outside
 * has the length (R + r cos a) angle, the one across from it (R - r cos a) angle: their mean is R angle, whatever a is, and along
 * straights both are the straight. So the mean is exact as long as both strings run without winding round the tube; a string that winds
 * by an angle t over a straight of length s is too long by sqrt(s^2 + (r t)^2) - s.
 */
export const lengthByStrings = (inside: number, outside: number): number => (inside + outside) / 2;

/**
 * Running length up to which water fills a tube that starts at `start`, mm; volume in mm3. Sections of a stepped tube are as long as the route
 * has them, but for the last, which takes what is left.
 */
export function runFilledBy(volume: number, sections: readonly RoutedSection[], start: number): number {
  let left = volume;
  for (const [i, { from, od, wall }] of sections.entries()) {
    const area = (Math.PI / 4) * (od - 2 * wall) ** 2;
    const begin = Math.max(from, start);
    const next = sections[i + 1];
    if (!next) return begin + left / area;
    const own = area * Math.max(0, next.from - begin);
    if (left < own) return begin + left / area;
    left -= own;
  }
  return start;
}

/** Water that fills a tube from `start` to its end, mm3. */
export function waterIn({ sections, length }: RoutedTube, start: number): number {
  return sections.reduce((sum, { from, od, wall }, i) => {
    const to = sections[i + 1]?.from ?? length;
    return sum + (Math.PI / 4) * (od - 2 * wall) ** 2 * Math.max(0, to - Math.max(from, start));
  }, 0);
}

/** The route's shape with what the cut pieces are off put in. */
function shapeOfPieces(pieces: readonly MeasuredPiece[], tube: RoutedTube, cuts: TubeCuts): TubeShape {
  const shape = shapeOfPath(tube.path);
  const straights = [...shape.straights];
  const angles = [...shape.angles];
  const arcs = [...shape.arcs];
  let bends = 0;
  for (const c of cuts.pieces) {
    const m = pieces.find((p) => p.piece === c.piece.name);
    if (c.angle === null) {
      if (m?.length != null) straights[bends] = straights[bends]! + m.length - c.cutLegBefore;
      continue;
    }
    const k = bends++;
    if (m?.before != null) straights[k] = straights[k]! + m.before - c.cutLegBefore;
    if (m?.after != null) straights[k + 1] = straights[k + 1]! + m.after - c.cutLegAfter;
    if (m?.bend == null) continue;
    angles[k] = m.bend;
    arcs[k] = c.clr! * m.bend;
  }
  return { ...shape, straights, angles, arcs };
}

function shapeOfPoints(measured: Extract<Measured, { kind: 'points' }>, tube: RoutedTube): TubeShape {
  const { points, by, clr } = measured;
  return by === 'tangent'
    ? shapeFromTangents(points, shapeOfPath(tube.path))
    : shapeFromIntersections(points, clr ?? tube.polygon.clr, tube);
}

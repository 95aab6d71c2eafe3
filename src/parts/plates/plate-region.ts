import { hullOf } from '../../geometry/outline/hull.js';
import { circleOutline, rectangleOutline } from '../../geometry/outline/make.js';
import { outlineBounds } from '../../geometry/outline/measure.js';
import { offsetOutline } from '../../geometry/outline/offset.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { translateOutline } from '../../geometry/outline/transform.js';
import { validateOutline } from '../../geometry/outline/valid.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { lengthWords } from '../../params/faults/wording.js';
import type { PlateBolts, PlatePattern, PlatePlan, PlateThroat } from '../../params/plan.js';
import type { LengthUnit } from '../../params/units.js';
import { flangeEdge } from '../flange/edge.js';
import type { FlatHole, FlatOpening, FlatRegion } from './flat-part.js';

type Bolted = Exclude<PlatePattern, { readonly kind: 'vband_bore' | 'slip_joint' }>;

/** Outlines of a plate about the middle of its pattern, x across, y up, mm; of a slip joint the flat piece its sleeve is rolled from. */
export function plateRegion(plate: PlatePlan, leastCutHole: number, units: LengthUnit = 'mm'): FlatRegion {
  const { pattern } = plate;
  if (pattern.kind === 'vband_bore') {
    const opening = { place: 'bore', label: '', outline: circleOutline([0, 0], pattern.bore) };
    return { outer: circleOutline([0, 0], pattern.od), openings: [opening], slots: [], holes: [] };
  }
  if (pattern.kind === 'slip_joint') {
    return { outer: rectangleOutline(sleeveLength(pattern), pattern.overlap), openings: [], slots: [], holes: [] };
  }
  const points = boltPoints(pattern);
  const outer = outerOf(plate, pattern, points);
  validateOutline(outer);
  return {
    outer,
    openings: openingsOf(pattern.throat),
    slots: [],
    holes: holesOf(points, pattern.bolts, leastCutHole * plate.thickness, units),
  };
}

/** Length of the strip a sleeve is rolled from, mm: once round the middle of its wall. */
export const sleeveLength = (p: { readonly tubeOd: number; readonly fit: number; readonly wall: number }): number =>
  Math.PI * (p.tubeOd + 2 * p.fit + p.wall);

/** Centres of the bolts, mm. */
export function boltPoints(p: Bolted): readonly Vec2[] {
  switch (p.kind) {
    case 'rectangle_four_bolt': {
      const [x, y] = [p.boltX / 2, p.boltY / 2];
      return [
        [-x, y],
        [x, y],
        [x, -y],
        [-x, -y],
      ];
    }
    case 'oval_two_bolt':
      return evenly(2, p.boltSpacing, p.clocking);
    default:
      return evenly(p.count, p.boltCircle, Math.PI / 2 + p.clocking);
  }
}

const evenly = (n: number, diameter: number, first: number): Vec2[] =>
  Array.from({ length: n }, (_, i): Vec2 => {
    const a = first + (2 * Math.PI * i) / n;
    return [dust(Math.cos(a)) * (diameter / 2), dust(Math.sin(a)) * (diameter / 2)];
  });

/** Quarter turns exact. */
const dust = (v: number): number => (Math.abs(v) < 1e-15 ? 0 : v);

function holesOf(
  points: readonly Vec2[],
  { thread, holeDiameter }: PlateBolts,
  leastCut: number,
  units: LengthUnit,
): FlatHole[] {
  return points.map((at, i) => ({
    place: `bolt ${i + 1}`,
    at,
    outline: circleOutline(at, holeDiameter),
    words: `hole ${lengthWords(holeDiameter, units, 2)} for ${thread}`,
    diameter: holeDiameter,
    drill: holeDiameter < leastCut,
  }));
}

/** The line round all openings together. */
function envelope(t: PlateThroat): Outline {
  return t.kind === 'round' ? circleOutline([0, 0], t.diameter) : rectangleOutline(t.width, t.height, t.cornerRadius);
}

/** Openings of a throat, the left one first. */
function openingsOf(t: PlateThroat): FlatOpening[] {
  if (t.kind !== 'divided')
    return [{ place: t.kind === 'round' ? 'bore' : 'opening', label: '', outline: envelope(t) }];
  const width = (t.width - t.web) / 2;
  const one = rectangleOutline(width, t.height, t.cornerRadius);
  const by = (width + t.web) / 2;
  return [
    { place: 'left opening', label: '', outline: translateOutline(one, [-by, 0]) },
    { place: 'right opening', label: '', outline: translateOutline(one, [by, 0]) },
  ];
}

/** Bosses round the bolts and the edge round the throat, held together by common tangents, or waisted where a fillet is asked for. */
function outerOf(plate: PlatePlan, pattern: Bolted, points: readonly Vec2[]): Outline {
  const { edge, throatEdge, fillet } = plate;
  const boss = pattern.bolts.holeDiameter + 2 * edge;
  const throat = envelope(pattern.throat);
  if (pattern.kind === 'round')
    return circleOutline([0, 0], pattern.od ?? roundOd(pattern.boltCircle + boss, throat, throatEdge));
  if (fillet !== null) {
    const width = pattern.bolts.holeDiameter;
    const holes = points.map((at) => ({ at, width, length: width, angle: 0 }));
    const openings = [{ at: [0, 0] as const, outline: throat }];
    const core = { openings, holes, portEdge: throatEdge, holeEdge: edge, fillet };
    return flangeEdge(core).outline;
  }
  return hullOf([...points.map((at) => circleOutline(at, boss)), offsetOutline(throat, throatEdge)]);
}

function roundOd(byBolts: number, throat: Outline, throatEdge: number): number {
  const { from, to } = outlineBounds(throat);
  return Math.max(byBolts, to[0] - from[0] + 2 * throatEdge);
}

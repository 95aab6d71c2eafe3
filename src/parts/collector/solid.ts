import modeling from '@jscad/modeling';
import { type Frame, pointFrom } from '../../geometry/frame.js';
import { jscadPoint, meshFromGeom3 } from '../../geometry/solid/jscad-mesh.js';
import { difference, hull, hullOfPoints, placed, type Solid, solidOf, union } from '../../geometry/solid/solid.js';
import { bar, circlePoints, loft, throughSlices } from '../../geometry/solid/solid-shapes.js';
import { CHORD_ERROR } from '../../geometry/tolerance.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { Vec3 } from '../../geometry/vec3.js';
import type { BranchCut } from './branch-cut.js';
import type { CollectorGeometry } from './merge-geometry.js';

const { slice } = modeling.extrusions;

/** How far a cutter reaches beyond the face it opens, mm. */
const BEYOND = 1;

/**
 * The collector in its own frame: what stands outside less the way of the gas. Its tubes need no trimming here: where bores
 * overlap their union is the same with or without the cutting planes, and the outsides, a wall further out than the bores,
 * stay a wall away from the joined bores everywhere. The valleys between the lobes at the merge's end are closed by a plate
 * of the cone's wall. The cone's wall is measured square to the collector's axis. `more` is united with the outside first.
 */
export const collectorSolid = (g: CollectorGeometry, ...more: readonly Solid[]): Solid =>
  difference(union(collectorOutside(g), ...more), collectorGas(g, BEYOND), ...sleeveBores(g));

/** The space the gas fills, opened `beyond` mm past every end. */
export function collectorGas(g: CollectorGeometry, beyond = 0): Solid {
  const from = g.mergeLength;
  const tubes =
    g.inlets === 1 ? [bar(g.bore, -beyond, 0)] : g.cuts.map((c) => tiltedTube(c.frame, g.bore, -beyond, from));
  return union(
    ...tubes,
    cone(g, g.bore, g.coneEnd.bore),
    ...throatPipes(g, g.throat?.bore ?? 0, g.outletBore),
    ...(g.tail + beyond > 0 ? [tailPipe(g, g.outletBore, beyond)] : []),
    ...branchPipe(g, (b) => b.od / 2 - b.wall, beyond),
  );
}

function collectorOutside(g: CollectorGeometry): Solid {
  const cones = [
    cone(g, g.bore + g.coneWall, g.coneEnd.outside),
    ...throatPipes(g, g.throat?.outside ?? 0, g.outletOutside),
    ...(g.tail > 0 ? [tailPipe(g, g.outletOutside, 0)] : []),
    ...branchPipe(g, (b) => b.od / 2, 0),
    ...sleeves(g),
  ];
  if (g.inlets === 1) return union(...cones);
  const tubes = g.cuts.map((c) => tiltedTube(c.frame, g.outside + fused(g), 0, g.mergeLength));
  const plate = hull(...g.cuts.map((c) => disc(c.frame, g, g.mergeLength - g.coneWall)));
  return union(...tubes, plate, ...cones, ...spike(g));
}

/** Throat and diffuser of a venturi; what has no length is left out. */
function throatPipes({ throat: t }: CollectorGeometry, radius: number, outletRadius: number): Solid[] {
  if (t === null) return [];
  return [
    ...(t.to > t.from ? [bar(radius, t.from, t.to)] : []),
    ...(t.diffuserEnd > t.to ? [bar(radius, t.to, t.diffuserEnd, outletRadius)] : []),
  ];
}

function branchPipe({ branch }: CollectorGeometry, radius: (b: BranchCut) => number, beyond: number): Solid[] {
  return branch === null ? [] : [placed(bar(radius(branch), 0, branch.length + beyond), branch.frame)];
}

/** The sleeves' outsides: over the tubes' ends and on over the collector's own tubes, where they are welded. */
function sleeves(g: CollectorGeometry): Solid[] {
  const { slip } = g;
  if (slip === null) return [];
  return g.cuts.map((c) => placed(bar(slip.outside, -slip.overlap, slip.land), c.frame));
}

/** Room for the tubes' ends in the sleeves, up to the collector's own tubes. */
function sleeveBores(g: CollectorGeometry): Solid[] {
  const { slip } = g;
  if (slip === null) return [];
  return g.cuts.map((c) => placed(bar(slip.bore, -slip.overlap - BEYOND, 0), c.frame));
}

/**
 * The spike: what lies between the tubes' axes from the inlet plane on, as far as the tubes' outsides leave room. Beyond its
 * point they cover it wholly, so that it may run on inside them.
 */
function spike(g: CollectorGeometry): Solid[] {
  if (g.spike === null) return [];
  const corners = (z: number) =>
    g.cuts.map((_, i): Vec3 => {
      const r = g.ringRadius - z * Math.tan(g.mergeHalfAngle);
      const a = (2 * Math.PI * i) / g.cuts.length;
      return [r * Math.cos(a), r * Math.sin(a), z];
    });
  return [hullOfPoints([...corners(0), ...corners((g.spike.length + g.mergeLength) / 2)])];
}

/** Tubes that touch at the inlet plane would meet in a line, which no mesh can print: they are grown until their facets overlap. mm. */
function fused(g: CollectorGeometry): number {
  const gap = 2 * g.ringRadius * Math.sin(Math.PI / g.inlets) - 2 * g.outside;
  return gap < CHORD_ERROR ? CHORD_ERROR * 1.5 : 0;
}

/** Convex hull of the tubes' sections at the merge's end and the outlet's circle: a developable transition. */
function cone(g: CollectorGeometry, radius: number, outletRadius: number): Solid {
  const { z: end } = g.coneEnd;
  if (g.inlets === 1) return bar(radius, 0, end, outletRadius);
  const sections = g.cuts.flatMap((c) => sectionAt(c.frame, radius, g.mergeLength));
  const outlet = circlePoints(outletRadius).map(([x, y]): Vec3 => [x, y, end]);
  return hullOfPoints([...sections, ...outlet]);
}

function tailPipe(g: CollectorGeometry, radius: number, beyond: number): Solid {
  return bar(radius, g.totalLength - g.tail, g.totalLength + beyond);
}

/** A round tube along an inlet's axis from `from` mm behind its origin to the plane z = `to` of the collector, corners on the true surface. */
export function tiltedTube(inlet: Frame, radius: number, from: number, to: number): Solid {
  const start = circlePoints(radius).map(([x, y]) => pointFrom(inlet, [x, y, from]));
  return solidOf(
    meshFromGeom3(
      throughSlices([start, sectionAt(inlet, radius, to)].map((ring) => slice.fromPoints(ring.map(jscadPoint)))),
    ),
  );
}

/** Where the generators of a tube about an inlet's axis pass the plane z = `to` of the collector: points of an ellipse. */
function sectionAt(inlet: Frame, radius: number, to: number): Vec3[] {
  return circlePoints(radius).map(([x, y]) => {
    const p = pointFrom(inlet, [x, y, 0]);
    const k = (to - p[2]) / inlet.z[2];
    return [p[0] + inlet.z[0] * k, p[1] + inlet.z[1] * k, to];
  });
}

/** A flat slab of one tube's cone section between `from` mm and the merge's end plane. */
function disc(inlet: Frame, g: CollectorGeometry, from: number): Solid {
  const points = sectionAt(inlet, g.bore + g.coneWall, g.mergeLength).map(([x, y]): Vec2 => [x, y]);
  return loft([
    { z: from, points },
    { z: g.mergeLength, points },
  ]);
}

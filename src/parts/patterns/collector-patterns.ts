import { degrees } from '../../geometry/angle.js';
import { circleRim, hullRim } from '../../geometry/development/convex-rim.js';
import { type CutSurface, squareEnd, type TubeEnd, tubeEnd } from '../../geometry/development/tube-end.js';
import { directionInto, type Frame, pointInto } from '../../geometry/frame.js';
import { PARALLEL } from '../../geometry/merge/end.js';
import type { Plane } from '../../geometry/plane.js';
import { lengthsIn, sizeWords } from '../../params/faults/wording.js';
import type { LengthUnit } from '../../params/units.js';
import type { CollectorGeometry } from '../collector/merge-geometry.js';
import type { Pattern } from './pattern.js';
import { saddlePatterns } from './saddle-patterns.js';
import { frustumPattern, type SheetSpec, transitionPattern } from './sheet-pattern.js';
import { type Layout, markedRadius, wrapPattern } from './wrap.js';

/** Collectors of one shape, as their patterns name them. */
export interface CollectorKind {
  readonly geometry: CollectorGeometry;
  /** Safe as a file name. */
  readonly file: string;
  readonly names: readonly string[];
}

/** The cuts of one inlet's tube in the tube's own frame: the planes to its neighbours and the merge's end. */
function inletCuts(g: CollectorGeometry, inlet: number): CutSurface[] {
  const { frame, planes } = g.cuts[inlet]!;
  const end: Plane = { point: [0, 0, g.mergeLength], normal: [0, 0, -1] };
  return [...planes, end].map((plane) => ({ kind: 'plane', plane: planeInto(frame, plane) }));
}

/** The developed edge of an inlet's tube as it is seen at `radius` mm. */
const inletEnd = (g: CollectorGeometry, inlet: number, radius: number): TubeEnd => tubeEnd(inletCuts(g, inlet), radius);

/** File names of a collector's patterns say what they are of. */
const prefixed = (file: string): string => (file.startsWith('collector') ? file : `collector-${file}`);

const planeInto = (frame: Frame, { point, normal }: Plane): Plane => ({
  point: pointInto(frame, point),
  normal: directionInto(frame, normal),
});

/** The wrap that trims the inlets' tubes, all of a ring alike; null where no tube is cut. */
export function inletPattern({ geometry: g, file, names }: CollectorKind, layout: Layout): Pattern | null {
  if (g.inlets === 1 || g.mergeHalfAngle < PARALLEL) return null;
  const tube = { od: 2 * g.outside, wall: g.outside - g.bore };
  const planes = g.inlets === 2 ? 'one plane' : 'two planes';
  return wrapPattern(
    {
      name: `${prefixed(file)}-inlet`,
      title: `Inlet tube of ${collectorWords(names)}`,
      count: g.inlets * names.length,
      tube,
      low: squareEnd(0),
      high: inletEnd(g, 0, markedRadius(tube, layout.wrap)),
      reference: "outer line, furthest from the collector's axis",
      guide: 'gas this way',
      notes: [
        `Tube ${sizeWords([tube.od, tube.wall], layout.units, 2)} cut by ${planes} at ${degrees(g.cuts[0]!.angle).toFixed(2)} deg to its axis and by the end of the merge`,
        'The lower edge is the square inlet end of the tube',
        `The line is where flat cuts show on the ${layout.wrap}: saw flat through, along the plane, not square to the skin`,
      ],
    },
    layout,
  );
}

/** The sheet from the merge's end to the outlet, or to the throat of a venturi; null where inlet and outlet are of one size. */
export function conePattern(
  { geometry: g, file, names }: CollectorKind,
  material: string,
  units: LengthUnit,
): Pattern | null {
  const words = lengthsIn(units);
  const t = g.coneWall;
  const [inlet, outlet] = [2 * g.bore + t, 2 * g.coneEnd.bore + t];
  if (!(g.coneLength > 0) || (g.inlets === 1 && Math.abs(inlet - outlet) < 0.01)) return null;
  const spec: SheetSpec = {
    name: `${prefixed(file)}-cone`,
    title: `Cone of ${collectorWords(names)}`,
    count: names.length,
    thickness: t,
    material,
    units,
    notes: [
      `From ${g.inlets === 1 ? `${words(2 * g.bore, 2)} bore` : `the ${g.inlets} joined tubes`} to ${words(2 * g.coneEnd.bore, 2)} bore over ${words(g.coneLength, 2)}`,
    ],
  };
  if (g.inlets === 1) return frustumPattern(spec, inlet, outlet, g.coneLength);
  const lobes = Array.from({ length: g.inlets }, (_, i) => (2 * Math.PI * i) / g.inlets);
  const low = hullRim(
    lobes.map((turn) => ({
      centre: [g.mergeRadius * Math.cos(turn), g.mergeRadius * Math.sin(turn)],
      along: inlet / 2 / Math.cos(g.mergeHalfAngle),
      across: inlet / 2,
      turn,
    })),
  );
  return transitionPattern(
    { ...spec, notes: [...spec.notes, 'The wavy edge goes to the inlets: flats between them, cones over them'] },
    { low, high: circleRim([0, 0], outlet), height: g.coneLength },
    lobes.map((normal, i) => ({ normal, label: `inlet ${i + 1}` })),
  );
}

/** The sheet of a venturi's diffuser, from the throat to the outlet; null without one. */
export function diffuserPattern(
  { geometry: g, file, names }: CollectorKind,
  material: string,
  units: LengthUnit,
): Pattern | null {
  const words = lengthsIn(units);
  if (g.throat === null) return null;
  const { bore, to, diffuserEnd } = g.throat;
  const t = g.coneWall;
  const length = diffuserEnd - to;
  if (length < 1e-6 || g.outletBore - bore < 0.005) return null;
  const note = `From ${words(2 * bore, 2)} bore at the throat to ${words(2 * g.outletBore, 2)} over ${words(length, 2)}`;
  return frustumPattern(
    {
      name: `${prefixed(file)}-diffuser`,
      title: `Diffuser of ${collectorWords(names)}`,
      count: names.length,
      thickness: t,
      material,
      units,
      notes: [note],
    },
    2 * bore + t,
    2 * g.outletBore + t,
    length,
  );
}

/** The end of a wastegate branch and its opening in the tail it stands on; none for a branch on a cone, whose hull is no round tube. */
export function branchPatterns({ geometry: g, file, names }: CollectorKind, layout: Layout): readonly Pattern[] {
  const { branch } = g;
  if (branch === null || branch.host.kind !== 'tail') return [];
  return saddlePatterns(
    {
      name: prefixed(file),
      title: `Branch of ${collectorWords(names)}`,
      count: names.length,
      branch: { od: branch.od, wall: branch.wall },
      host: { od: 2 * branch.host.radius, wall: g.coneWall },
      angle: branch.angle,
      offset: 0,
    },
    layout,
  );
}

function collectorWords(names: readonly string[]): string {
  if (names.length > 1) return `collectors ${names.slice(0, -1).join(', ')} and ${names.at(-1)}`;
  return names[0] === 'collector' ? 'the collector' : `collector ${names[0]}`;
}

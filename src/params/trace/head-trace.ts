import { cosSinDegrees } from '../../geometry/angle.js';
import { type Contour, placeWords } from '../../geometry/contour/contour.js';
import { refuseCrossing } from '../../geometry/contour/crossing.js';
import { outlineCentroid } from '../../geometry/outline/centroid.js';
import { outlineContains } from '../../geometry/outline/contains.js';
import { outlineArea, outlineBounds } from '../../geometry/outline/measure.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { pointAlong } from '../../geometry/outline/sides.js';
import { distance2, rotate2, type Vec2 } from '../../geometry/vec2.js';
import { either, show, tidy } from '../faults/wording.js';
import { MOST_BOLTS, MOST_CYLINDERS } from '../limits.js';
import { tracedFault, tracedSize } from '../port-shape/traced-outline.js';
import type { HeadSection } from '../resolve/sections.js';
import type { PlanFile } from '../schema/plan-file.js';
import { BOLT_THREADS, type BoltFit, type BoltThread, clearanceHole, threadDiameter } from '../tables/bolt-holes.js';
import type { LengthUnit } from '../units.js';
import { fitNotes, fittedPort, placed, rawOutline } from './port-trace.js';
import { traceFault } from './trace-fault.js';
import { contourName, type ReadContours } from './trace-file.js';

type HeadTrace = NonNullable<NonNullable<PlanFile['head']>['trace']>;

/** Ports and bolts of a drawing, in the head's x and y, and what is to be said of them. */
export interface TracedHead {
  readonly ports: HeadSection['ports'];
  readonly bolts: HeadSection['bolts'];
  readonly notes: readonly string[];
}

/** A closed contour with what it may be. */
interface Candidate {
  readonly contour: Contour;
  readonly outline: Outline;
  readonly centre: Vec2;
  /** Diameter, mm, where it is round within the fit. */
  readonly round: number | null;
}

/**
 * Ports and bolt holes of a drawing: round contours up to `bolt_max_diameter` are holes, contours that hold others are the
 * gasket's edge and left out, the rest are ports from left to right. Throws RangeError naming the entity that is neither.
 */
export function tracedHead(trace: HeadTrace, read: ReadContours, unit: LengthUnit): TracedHead {
  const on = (layer: string | undefined) => {
    const wanted = { file: trace.file, unit: trace.unit ?? null, layer: layer ?? null, heal: trace.heal };
    return read(wanted);
  };
  const portFile = on(trace.ports_layer);
  const boltFile = on(trace.bolts_layer);
  const same = trace.ports_layer === trace.bolts_layer;
  const forPorts = portFile.contours.map((c) => candidateOf(c, trace.fit));
  const forBolts = same ? forPorts : boltFile.contours.map((c) => candidateOf(c, trace.fit));
  const isBolt = (c: Candidate): boolean => c.round !== null && c.round <= trace.bolt_max_diameter;
  const holes = forBolts.filter(isBolt);
  const large = forPorts.filter((c) => !isBolt(c));
  if (trace.bolts_layer !== undefined && !same)
    refuseOdd(
      forBolts.filter((c) => !isBolt(c)),
      trace,
    );
  const edges = large.filter((c) => [...large, ...holes].some((o) => o !== c && holds(c, o)));
  const openings = large.filter((c) => !edges.includes(c));
  refuseSmall(openings, trace);
  const ports = portsOf(openings, trace, unit);
  const bolts = boltsOf(holes, trace, boltFile.inInches);
  const found = `${trace.file}: ${ports.ports.length} ports and ${bolts.length} bolt holes are traced`;
  const edgeNotes = edges.map(
    (e) => `${trace.file}: ${contourName(e.contour)} holds other contours and is left out: the gasket's edge`,
  );
  const notes = [...new Set([...portFile.notes, ...boltFile.notes])];
  return { ports: ports.ports, bolts, notes: [found, ...notes, ...edgeNotes, ...ports.notes] };
}

function candidateOf(contour: Contour, fit: number): Candidate {
  refuseCrossing(contour);
  const outline = rawOutline(contour);
  if (!(outlineArea(outline) > 0)) throw new RangeError(`${contourName(contour)} encloses no area`);
  const centre = outlineCentroid(outline);
  return { contour, outline, centre, round: roundness(contour, outline, centre, fit) };
}

/** Corners of a polygon from which on it may stand for a circle, and the part of the circle's area it may lack. */
const POLYGON = { corners: 8, lacks: 0.05 } as const;

/** Diameter, mm, of a contour whose points all lie on one circle within `tolerance` mm, or null. */
function roundness(contour: Contour, outline: Outline, centre: Vec2, tolerance: number): number | null {
  const points = contour.flatMap(({ side }) =>
    side.kind === 'arc' ? [side.from, pointAlong(side, 0.5)] : [side.from],
  );
  const radii = points.map((p) => distance2(p, centre));
  const radius = radii.reduce((sum, r) => sum + r, 0) / radii.length;
  if (radii.some((r) => Math.abs(r - radius) > tolerance)) return null;
  const lines = contour.filter((s) => s.side.kind === 'line').length;
  if (lines > 0 && contour.length < POLYGON.corners) return null;
  const lacks = 1 - outlineArea(outline) / (Math.PI * radius * radius);
  return Math.abs(lacks) < POLYGON.lacks ? 2 * radius : null;
}

const holds = (outer: Candidate, inner: Candidate): boolean => {
  const [v] = inner.outline.vertices;
  return outlineArea(outer.outline) > outlineArea(inner.outline) && outlineContains(outer.outline, [v!.x, v!.y]);
};

function refuseOdd(odd: readonly Candidate[], trace: HeadTrace): void {
  const [first] = odd;
  if (first === undefined) return;
  const what =
    first.round === null
      ? 'is not round'
      : `is ${tidy(first.round)} mm across, over bolt_max_diameter (${tidy(trace.bolt_max_diameter)} mm)`;
  throw new RangeError(`${nameAndPlace(first)} on the layer of the bolt holes ${what}`);
}

function refuseSmall(openings: readonly Candidate[], trace: HeadTrace): void {
  for (const c of openings) {
    const { from, to } = outlineBounds(c.outline);
    if (Math.max(to[0] - from[0], to[1] - from[1]) > trace.bolt_max_diameter) continue;
    throw new RangeError(
      `${nameAndPlace(c)} is ${tracedSize(c.outline)}: too small for a port and not round as a bolt hole; move it to another layer and name ports_layer and bolts_layer`,
    );
  }
}

const nameAndPlace = (c: Candidate): string => `${contourName(c.contour)} at ${placeWords(c.centre)}`;

/** A point of the drawing on the face of the head. */
function onFace(p: Vec2, { origin, mirror, rotation }: HeadTrace): Vec2 {
  const x = p[0] - origin[0];
  return rotate2([(mirror ? -x : x) + 0, p[1] - origin[1]], ...cosSinDegrees(rotation));
}

function portsOf(openings: readonly Candidate[], trace: HeadTrace, unit: LengthUnit) {
  const ports = openings
    .map((c) => ({ c, at: onFace(c.centre, trace) }))
    .sort((a, b) => a.at[0] - b.at[0] || a.at[1] - b.at[1]);
  const { cylinders } = trace;
  if (ports.length === 0) throw new RangeError('it has no contour that may be a port');
  if (ports.length > MOST_CYLINDERS) {
    const message = `it has ${ports.length} contours that may be ports, over ${MOST_CYLINDERS}; name ports_layer`;
    throw new RangeError(message);
  }
  if (cylinders !== undefined && cylinders.length !== ports.length) {
    const places = ports.map(({ at }) => `${tidy(at[0])}, ${tidy(at[1])}`).join('; ');
    throw traceFault(
      'cylinders',
      `expected ${ports.length} cylinders, one for each port at ${places} mm, found ${cylinders.length}`,
    );
  }
  const notes: string[] = [];
  const sections = ports.map(({ c }, i) => {
    const cylinder = cylinders?.[i] ?? i + 1;
    const fitted = fittedPort(c.contour, trace.fit);
    const centre = outlineCentroid(fitted.outline);
    const outline = placed(fitted.outline, centre, trace);
    const fault = tracedFault(outline, unit);
    if (fault !== null) throw new RangeError(`${nameAndPlace(c)}: ${fault.message}`);
    notes.push(...fitNotes(fitted, trace.file).map((note) => `port of cylinder ${cylinder}: ${note}`));
    const shape = { outline, words: `traced ${tracedSize(outline)} from ${trace.file}` };
    const inHead = trace.length_in_head === undefined ? {} : { length_in_head: trace.length_in_head };
    return { cylinder, at: pair(onFace(centre, trace)), direction: trace.direction, shape, ...inHead };
  });
  return { ports: sections, notes };
}

const pair = ([x, y]: Vec2): [number, number] => [x, y];

function boltsOf(holes: readonly Candidate[], trace: HeadTrace, inInches: boolean): HeadSection['bolts'] {
  if (holes.length > MOST_BOLTS) throw new RangeError(`it has ${holes.length} bolt holes, over ${MOST_BOLTS}`);
  return holes
    .map((c) => {
      const at = pair(onFace(c.centre, trace));
      return { at, thread: threadOf(c, trace, inInches), hole_diameter: rounded(c.round!) };
    })
    .sort((a, b) => a.at[0] - b.at[0] || a.at[1] - b.at[1]);
}

/** Six decimals: what reading polygons and other units leaves in is no part of the hole. */
const rounded = (value: number): number => Math.round(value * 1e6) / 1e6;

const FITS: readonly BoltFit[] = ['fine', 'medium', 'coarse'];

/** A hole may differ from a clearance hole of the table by this, mm, and still be meant for its thread. */
const NEAR_ENOUGH = 0.6;

/** The thread a hole is for: the one given, or of the drawing's system (metric or inch) the one with the nearest clearance hole. */
function threadOf(c: Candidate, trace: HeadTrace, inInches: boolean): BoltThread {
  const hole = c.round!;
  const given = trace.thread;
  if (given !== undefined) {
    if (hole > threadDiameter(given)) return given;
    throw traceFault(
      'thread',
      `the hole of ${tidy(hole)} mm, ${nameAndPlace(c)}, does not pass ${given} (${tidy(threadDiameter(given))} mm)`,
    );
  }
  const known = BOLT_THREADS.filter((t) => t.startsWith('M') !== inInches && threadDiameter(t) < hole);
  const off = (t: BoltThread): number => Math.min(...FITS.map((fit) => Math.abs(clearanceHole(t, fit) - hole)));
  const best = [...known].sort((a, b) => off(a) - off(b))[0];
  if (best !== undefined && off(best) <= NEAR_ENOUGH) return best;
  const threads = either(BOLT_THREADS.filter((t) => t.startsWith('M') !== inInches));
  throw traceFault(
    'thread',
    `missing; the hole of ${tidy(hole)} mm, ${nameAndPlace(c)}, is no clearance hole of ${threads}; give ${show('thread')}`,
  );
}

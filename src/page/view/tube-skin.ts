import type { SceneTube } from '../../export/book/scene-data.js';
import { chordsAlong, chordsRound } from '../../geometry/chord.js';
import { type Path, segmentLength } from '../../geometry/path/path.js';
import { add, cross, scale, type Vec3 } from '../../geometry/vec3.js';
import { pathOf, type Station, stationAt } from './tube-path.js';

/** Triangles to be drawn with a normal for every corner. */
export interface Skin {
  readonly positions: Float32Array;
  readonly normals: Float32Array;
  /** Running length, mm, and part of a turn about the centreline, for every corner. */
  readonly places: Float32Array;
  readonly triangles: Uint32Array;
}

/** How far the facets of a tube are from its true surface at most, mm. */
export const SKIN_ERROR = 0.1;

/** The skin of a tube with its bore: closed, each section from where it begins to the next, flat faces at its ends. */
export function tubeSkin(tube: SceneTube): Skin {
  const path = pathOf(tube);
  const into: Growing = { positions: [], normals: [], places: [], triangles: [] };
  for (const [i, { from, od, wall }] of tube.sections.entries()) {
    const to = tube.sections[i + 1]?.from ?? tube.length;
    const stations = stationsOf(path, from, to, od / 2);
    const round = chordsRound(od / 2, SKIN_ERROR / 2);
    addShell(into, stations, od / 2, round, 1);
    addShell(into, stations, od / 2 - wall, round, -1);
    addFace(into, stations[0]!, od / 2, od / 2 - wall, round, -1);
    addFace(into, stations.at(-1)!, od / 2, od / 2 - wall, round, 1);
  }
  return {
    positions: Float32Array.from(into.positions),
    normals: Float32Array.from(into.normals),
    places: Float32Array.from(into.places),
    triangles: Uint32Array.from(into.triangles),
  };
}

interface Growing {
  readonly positions: number[];
  readonly normals: number[];
  readonly places: number[];
  readonly triangles: number[];
}

/** Where rings stand between two running lengths: at both, where segments meet, and along the bends. */
function stationsOf(path: Path, from: number, to: number, radius: number): Station[] {
  const runs = [from];
  let base = 0;
  for (const s of path.segments) {
    const length = segmentLength(s);
    const steps = s.kind === 'bend' ? chordsAlong(s.clr + radius, s.angle, SKIN_ERROR / 2) : 1;
    for (let i = 1; i <= steps; i++) {
      const run = base + (length * i) / steps;
      if (run > runs.at(-1)! + MERGED && run < to - MERGED) runs.push(run);
    }
    base += length;
  }
  return [...runs, to].map((run) => stationAt(path, run));
}

/** Rings nearer than this, mm, are one. */
const MERGED = 1e-6;

/** Corners of a ring; the first again at the end, with its place a whole turn on. */
function addRing(into: Growing, at: Station, radius: number, round: number, normalOf: (out: Vec3) => Vec3): number {
  const first = into.positions.length / 3;
  const side = cross(at.direction, at.normal);
  for (let k = 0; k <= round; k++) {
    const a = (2 * Math.PI * k) / round;
    const out = add(scale(at.normal, Math.cos(a)), scale(side, Math.sin(a)));
    into.positions.push(...add(at.point, scale(out, radius)));
    into.normals.push(...normalOf(out));
    into.places.push(at.run, k / round);
  }
  return first;
}

/** A shell that faces away from the centreline (1) or towards it (-1). */
function addShell(into: Growing, stations: readonly Station[], radius: number, round: number, facing: 1 | -1): void {
  const rings = stations.map((at) => addRing(into, at, radius, round, (out) => scale(out, facing)));
  for (let i = 0; i + 1 < rings.length; i++) addBand(into, rings[i]!, rings[i + 1]!, round, facing);
}

/** A flat face between bore and outside that faces along the tube (1) or back (-1). */
function addFace(into: Growing, at: Station, outer: number, inner: number, round: number, facing: 1 | -1): void {
  const normal = scale(at.direction, facing);
  const outside = addRing(into, at, outer, round, () => normal);
  const inside = addRing(into, at, inner, round, () => normal);
  addBand(into, outside, inside, round, facing);
}

function addBand({ triangles }: Growing, a: number, b: number, round: number, facing: 1 | -1): void {
  for (let k = 0; k < round; k++) {
    const [p, q, r, s] = [a + k, a + k + 1, b + k, b + k + 1];
    if (facing === 1) triangles.push(p, q, s, p, s, r);
    else triangles.push(p, s, q, p, r, s);
  }
}

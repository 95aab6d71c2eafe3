import { type Frame, frameFacing, WORLD } from '../../geometry/frame.js';
import { difference, placed, type Solid, trimmed, union } from '../../geometry/solid/solid.js';
import { bar } from '../../geometry/solid/solid-shapes.js';
import { textSolid } from '../../geometry/solid/text-solid.js';
import { distance, lerp, perpendicularTo, sub, unit, type Vec3 } from '../../geometry/vec3.js';
import type { SolidPart } from '../part.js';
import { printedPart } from '../printed-part.js';
import { type Key, socket, spigot } from './key.js';
import { RAISED } from './printed-writing.js';
import { labelStrokes } from './tube-label.js';

/** A bar's underside is cut flat where it would lean out further than this from upright, rad: no support, and a foot that holds. */
export const BAR_LEAN = (48 * Math.PI) / 180;

/** Where the flats of a strut's keys face: the same for its bars and what carries them, whichever way one looks along it. World. */
export const barNormal = (direction: Vec3): Vec3 => perpendicularTo(direction);

/** Straight round bars of a strut or a stem, end to end, world. */
export interface BarRun {
  readonly from: Vec3;
  readonly to: Vec3;
  readonly radius: number;
  readonly key: Key;
  readonly keyLength: number;
  /** Lengths of the spigots at both ends of the run, mm, where they differ from `keyLength`; 0 is a plain end. */
  readonly startKey?: number;
  readonly endKey?: number;
  /** Key of the spigot at the end of the run where it is another than `key`. */
  readonly lastKey?: Key;
  /** Where the keys' flats face, world; left out: as `barNormal` says. */
  readonly normal?: Vec3;
  readonly bed: Vec3;
  /** Depth of the flat it lies on, mm; left out: as deep as needs no support. */
  readonly flat?: number;
  /** Of the first layers, mm. */
  readonly chamfer: number;
  /** Name of the part, what is written on it, and what it is in words. */
  readonly name: string;
  readonly label: string;
  readonly title: string;
}

/**
 * The bars of one straight run: one, or as many equal ones as the bed asks for. The run has a spigot at both ends; where bars
 * meet, the later one has the socket. They print lying on a flat as wide as needs no support.
 */
export function keyedBars(run: BarRun): SolidPart[] {
  const most = Math.max(run.bed[0], run.bed[1]) - 2 * run.keyLength - 2;
  const count = Math.max(1, Math.ceil(distance(run.from, run.to) / most));
  return Array.from({ length: count }, (_, i) => {
    const suffix = count === 1 ? '' : `-${i + 1}`;
    const [from, to] = [lerp(run.from, run.to, i / count), lerp(run.from, run.to, (i + 1) / count)];
    const last = i === count - 1;
    const endKey = last ? (run.endKey ?? run.keyLength) : run.keyLength;
    const lastKey = last ? (run.lastKey ?? run.key) : run.key;
    return keyedBar({ ...run, from, to, endKey, lastKey, name: run.name + suffix, label: run.label + suffix }, i > 0);
  });
}

function keyedBar(run: BarRun, startsWithSocket: boolean): SolidPart {
  const { key, keyLength, radius, startKey = keyLength, endKey = keyLength, lastKey = key } = run;
  const length = distance(run.from, run.to);
  const direction = unit(sub(run.to, run.from));
  const at = frameFacing(run.from, direction, run.normal ?? barNormal(direction));
  const end: Frame = { ...WORLD, origin: [0, 0, length] };
  // seen from the carrier at the start the same perpendicular is y, so x turns over with z
  const start: Frame = { ...WORLD, x: [-1, 0, 0], z: [0, 0, -1] };
  const round = bar(radius, 0, length);
  const keyed = startsWithSocket
    ? difference(round, socket(key, keyLength, WORLD))
    : withSpigot(round, key, startKey, start);
  const whole = withName(withSpigot(keyed, lastKey, endKey, end), run.label, radius, length);
  const lying = trimmed(whole, {
    point: [0, (run.flat ?? radius * (1 - Math.sin(BAR_LEAN))) - radius, 0],
    normal: [0, 1, 0],
  });
  const up = frameFacing(WORLD.origin, [0, 1, 0], [1, 0, 0]);
  const { name, title, chamfer } = run;
  return printedPart({ name, kind: 'collector-holder', title, solid: lying, at, up, chamfer }, run.bed);
}

const withSpigot = (body: Solid, key: Key, length: number, at: Frame): Solid =>
  length > 0 ? union(body, spigot(key, length, at)) : body;

function withName(body: Solid, text: string, radius: number, length: number): Solid {
  const place = {
    length,
    clr: Number.POSITIVE_INFINITY,
    frame: (r: number): Frame => ({ origin: [0, r, length / 2], x: [0, 0, 1], y: [1, 0, 0], z: [0, 1, 0] }),
  };
  const label = labelStrokes(text, place, 2 * radius);
  if (label === null) return body;
  return union(body, placed(textSolid(label.strokes, -label.sunk, RAISED), place.frame(radius)));
}

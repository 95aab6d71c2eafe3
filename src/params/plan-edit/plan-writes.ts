import { isAlias, isSeq } from 'yaml';
import { degrees } from '../../geometry/angle.js';
import type { Vec3 } from '../../geometry/vec3.js';
import type { PlanPath } from '../faults/plan-problem.js';
import { type LengthUnit, parseLength } from '../units.js';
import { lengthOver, lengthText, plainNumber } from './edit-number.js';
import type { PlanEdit } from './plan-edit.js';
import { nodeAt, type PlanSource, planSource, yamlValue } from './plan-source.js';

/** A value to be written at a path: how it is written over an older one, and afresh. */
export interface Write {
  readonly path: PlanPath;
  readonly over: (old: { readonly value: unknown; readonly source: string }) => string;
  readonly fresh: string;
  /** A list entry to be added at the end, with its lines; the path is the list's. */
  readonly entry?: readonly string[];
}

/** What a change writes where in a plan's text, in order; mm and rad. Throws RangeError in words where the plan has no place for it. */
export function writesOf(text: string, edit: PlanEdit): Write[] {
  const source = planSource(text);
  const unit: LengthUnit = fieldOf(source.value, 'units') === 'in' ? 'in' : 'mm';
  switch (edit.edit) {
    case 'runners':
    case 'secondaries':
      return [oneLength(source, [edit.edit, edit.field], edit.value, unit)];
    case 'tube-clr':
      return [oneLength(source, ['tube', 'bends', edit.bend, 'clr'], edit.value, unit, true)];
    case 'collector-at':
      return point(source, [...collectorPath(source, edit.collector), 'at'], edit.at, unit);
    case 'collector-direction':
      return direction(source, [...collectorPath(source, edit.collector), 'direction'], edit.direction);
    case 'collector-angle':
      return [oneAngle([...collectorPath(source, edit.collector), edit.field], edit.value)];
    case 'collector-gap':
      return [oneLength(source, [...collectorPath(source, edit.collector), 'gap'], edit.value, unit)];
    case 'keep-out-at':
      return keepOut(source, edit.keepOut, edit.at, unit);
    case 'route-point':
      return routePoint(source, edit, unit);
    case 'take-route':
      return [takenRoute(source, edit, unit)];
  }
}

const fieldOf = (value: unknown, ...path: readonly (string | number)[]): unknown =>
  path.reduce<unknown>(
    (v, step) => (typeof v === 'object' && v !== null ? (v as Record<string | number, unknown>)[step] : undefined),
    value,
  );

function collectorPath({ value }: PlanSource, collector: number): PlanPath {
  const path = fieldOf(value, 'collector') === undefined ? ['collectors', collector] : ['collector'];
  if (fieldOf(value, ...path) === undefined || (path[0] === 'collector' && collector > 0)) {
    throw new RangeError(`the plan has no collector ${collector + 1}`);
  }
  return path;
}

/** `mustBe`: the field is not added where it is missing, since something else stands in its place. */
function oneLength({ value }: PlanSource, path: PlanPath, mm: number, unit: LengthUnit, mustBe = false): Write {
  const old = fieldOf(value, ...path);
  if (typeof old === 'object' && old !== null) {
    throw new RangeError(`${path.join('.')} is a band from one length to another; change it in the file`);
  }
  if (mustBe && old === undefined) {
    throw new RangeError(
      `${path.join('.')} is not in the plan: the entry takes its sizes from a table; change it in the file`,
    );
  }
  return { path, over: (was) => lengthOver(mm, was, unit), fresh: lengthText(mm, unit) };
}

/** Degrees to a hundredth. */
function oneAngle(path: PlanPath, rad: number): Write {
  const value = degrees(rad);
  const over = (was: { readonly value: unknown; readonly source: string }): string =>
    typeof was.value === 'number' && Math.abs(was.value - value) < 1e-6
      ? was.source
      : plainNumber(value, 2, was.source);
  return { path, over, fresh: plainNumber(value, 2) };
}

/** Three coordinates: each over its own number where they are listed here, all afresh where they are repeated from an anchor or missing. */
function point(source: PlanSource, path: PlanPath, at: Vec3, unit: LengthUnit, fine = false): Write[] {
  const node = nodeAt(source, path);
  if (isSeq(node) && node.items.length === 3 && !node.items.some((i) => isAlias(i))) {
    return at.map((mm, i) => ({
      path: [...path, i],
      over: (was) =>
        fine && typeof was.value === 'number' && Math.abs((parseLength(was.value, unit) ?? 0) - mm) > 5e-7
          ? lengthText(mm, unit, true, was.source)
          : lengthOver(mm, was, unit),
      fresh: lengthText(mm, unit, fine),
    }));
  }
  const fresh = `[${at.map((mm) => lengthText(mm, unit, fine)).join(', ')}]`;
  return [{ path, over: () => fresh, fresh }];
}

/** A direction counts by its way alone: four decimals. */
function direction(source: PlanSource, path: PlanPath, way: Vec3): Write[] {
  const node = nodeAt(source, path);
  if (!isSeq(node) || node.items.some((i) => isAlias(i))) {
    const fresh = `[${way.map((v) => plainNumber(v, 4)).join(', ')}]`;
    return [{ path, over: () => fresh, fresh }];
  }
  return way.map((v, i) => ({
    path: [...path, i],
    over: (was) =>
      typeof was.value === 'number' && Math.abs(was.value - v) < 5e-7 ? was.source : plainNumber(v, 4, was.source),
    fresh: plainNumber(v, 4),
  }));
}

/** The points of a keep-out, the one it is held by first. */
const POINTS: Readonly<Record<string, readonly string[]>> = {
  box: ['from', 'to'],
  cylinder: ['from', 'to'],
  capsule: ['from', 'to'],
  half_space: ['point'],
  mesh: ['at'],
};

function keepOut(source: PlanSource, index: number, at: Vec3, unit: LengthUnit): Write[] {
  const entry = fieldOf(source.value, 'keep_out', index);
  const points = POINTS[String(fieldOf(entry, 'kind'))];
  if (points === undefined) throw new RangeError(`the plan has no keep-out ${index + 1}`);
  const place = (name: string): Vec3 => {
    const read = [0, 1, 2].map((i) => {
      const v = fieldOf(entry, name, i) ?? 0;
      return typeof v === 'number' || typeof v === 'string' ? parseLength(v, unit) : null;
    });
    if (read.some((v) => v === null))
      throw new RangeError(`keep_out.${index}.${name} is no place; mend it in the file`);
    return read as unknown as Vec3;
  };
  const [first, second] = points.map(place);
  const isBox = fieldOf(entry, 'kind') === 'box';
  const held = first!.map((v, i) => (isBox ? Math.min(v, second![i]!) : v));
  return points.flatMap((name) => {
    const p = place(name);
    const to: Vec3 = [p[0] + at[0] - held[0]!, p[1] + at[1] - held[1]!, p[2] + at[2] - held[2]!];
    return point(source, ['keep_out', index, name], to, unit);
  });
}

const routesIn = ({ value }: PlanSource): readonly unknown[] => {
  const routes = fieldOf(value, 'runners', 'routes');
  return Array.isArray(routes) ? routes : [];
};

function routePoint(source: PlanSource, edit: Extract<PlanEdit, { edit: 'route-point' }>, unit: LengthUnit): Write[] {
  const index = routesIn(source).findIndex((r) => fieldOf(r, 'cylinder') === edit.cylinder);
  if (index < 0) throw new RangeError(`cylinder ${edit.cylinder} has no route given by hand: take its route first`);
  const points = fieldOf(routesIn(source)[index], 'points');
  if (!Array.isArray(points)) {
    throw new RangeError(`the route of cylinder ${edit.cylinder} is given by a bender's rows; change them in the file`);
  }
  if (edit.point >= points.length)
    throw new RangeError(`the route of cylinder ${edit.cylinder} has ${points.length} points`);
  return point(source, ['runners', 'routes', index, 'points', edit.point], edit.at, unit, true);
}

function takenRoute(source: PlanSource, edit: Extract<PlanEdit, { edit: 'take-route' }>, unit: LengthUnit): Write {
  const { cylinder, inlet, points, clr } = edit;
  if (routesIn(source).some((r) => fieldOf(r, 'cylinder') === cylinder)) {
    throw new RangeError(`cylinder ${cylinder} has a route given by hand already`);
  }
  const place = (p: Vec3): string => `[${p.map((v) => lengthText(v, unit, true)).join(', ')}]`;
  const radii = clr.map((r) => radiusText(r, unit));
  const alike = radii.every((r) => r === radii[0]);
  const radius = alike && radii.length > 0 ? radii[0]! : `[${radii.join(', ')}]`;
  const flow = `{ by: xyz, cylinder: ${cylinder}, inlet: ${inlet}, points: [${points.map(place).join(', ')}], clr: ${radius} }`;
  const block = [
    '- by: xyz',
    `  cylinder: ${cylinder}`,
    `  inlet: ${inlet}`,
    '  points:',
    ...points.map((p) => `    - ${place(p)}`),
    `  clr: ${radius}`,
  ];
  const quoted = isQuoted(source) ? JSON.stringify(yamlValue(flow)) : flow;
  return { path: ['runners', 'routes'], over: () => quoted, fresh: quoted, entry: block };
}

/** A radius that must be found again in the stock: in mm where the plan's unit would round it. */
function radiusText(mm: number, unit: LengthUnit): string {
  const text = lengthText(mm, unit, true);
  return Math.abs(parseLength(Number(text), unit)! - mm) < 5e-7 ? text : `${lengthText(mm, 'mm', true)} mm`;
}

/** True for a plan in JSON. */
const isQuoted = ({ text }: PlanSource): boolean => text.trimStart().startsWith('{');

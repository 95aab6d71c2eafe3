import type { Vec2 } from '../vec2.js';
import type { DxfEntityTags } from './file.js';
import { type DxfTag, dxfNumber } from './tags.js';

/** Coordinates beyond this, in the drawing's own unit, are no part of anything one bolts on. */
const LARGEST_COORDINATE = 1e6;

/** z of one entity may differ by this, in the drawing's own unit, and the extrusion from square by as much. */
const FLAT = 1e-6;

/** The first group of a code as a number, or null. Throws RangeError naming the line for what is no number or far too large. */
export function numberAt(entity: DxfEntityTags, code: number): number | null {
  const tag = entity.tags.find((t) => t.code === code);
  return tag === undefined ? null : bounded(tag);
}

export function bounded(tag: DxfTag): number {
  const value = dxfNumber(tag);
  if (Math.abs(value) > LARGEST_COORDINATE) {
    throw new RangeError(`line ${tag.line}: ${tag.value} is larger than any drawing of a port holds`);
  }
  return value;
}

/** The number an entity must have. Throws RangeError naming the entity and the group. */
export function neededAt(entity: DxfEntityTags, code: number, what: string): number {
  const value = numberAt(entity, code);
  if (value === null) throw new RangeError(`${entity.name} has no ${what} (group ${code})`);
  return value;
}

/** The point whose x has a group code: y has ten more. */
export const pointAt = (entity: DxfEntityTags, code: number, what: string): Vec2 => [
  neededAt(entity, code, `x of its ${what}`),
  neededAt(entity, code + 10, `y of its ${what}`),
];

/** Throws RangeError unless all z of an entity, of the given group codes, are the same. */
export function refuseTilted(entity: DxfEntityTags, codes: readonly number[]): void {
  const heights = codes.map((c) => numberAt(entity, c) ?? 0);
  if (heights.some((z) => Math.abs(z - heights[0]!) > FLAT)) {
    throw new RangeError(`${entity.name} does not lie flat: its z goes from ${heights[0]} to ${heights.at(-1)}`);
  }
}

/** True when an entity is drawn seen from below (extrusion 0, 0, -1): its x counts backwards. Throws RangeError for any other slant. */
export function seenFromBelow(entity: DxfEntityTags): boolean {
  const [x, y, z] = [numberAt(entity, 210) ?? 0, numberAt(entity, 220) ?? 0, numberAt(entity, 230) ?? 1];
  const l = Math.hypot(x, y, z);
  if (!(l > 0) || Math.hypot(x, y) / l > FLAT) {
    throw new RangeError(`${entity.name} does not lie in the drawing's plane: its extrusion is ${x}, ${y}, ${z}`);
  }
  return z < 0;
}

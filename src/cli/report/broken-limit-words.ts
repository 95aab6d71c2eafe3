import { degrees } from '../../geometry/angle.js';
import { lengthsIn, lengthWords } from '../../params/faults/wording.js';
import type { LengthUnit } from '../../params/units.js';
import type { BrokenLimit } from '../../routing/miss.js';

/** A limit that a set of routes breaks, with the field that sets it and by how much. */
export function brokenLimitWords(b: BrokenLimit, units: LengthUnit): string {
  const words = lengthsIn(units);
  const by = words(b.limit - b.value, 1);
  switch (b.kind) {
    case 'length':
      return Number.isFinite(b.limit)
        ? `${b.place.startsWith('secondary') ? 'secondaries' : 'runners'}.length: ${b.place} needs at least about ${words(b.limit, 1)}, the target is ${words(b.value, 1)}: ${by} too short`
        : `${b.place}: no route of any length was found within its own limits`;
    case 'straight':
      return `tube.min_${b.family.replace(' ', '_')}: ${b.place} comes out at ${words(b.value, 1)}, ${words(b.limit, 1)} are wanted: ${by} short`;
    case 'angle': {
      const clr = Number(b.family.split(' ').at(-1));
      const angle = (arc: number): string => `${degrees(-arc / clr).toFixed(1)} deg`;
      return `tube.bends: ${b.place} takes ${angle(b.value)} at ${lengthWords(Number(clr.toFixed(2)), units)} CLR, the stock bend has ${angle(b.limit)}`;
    }
    case 'step':
      return `tube.steps: ${b.place} falls within a bend that would have to move ${by}`;
    case 'self':
      return `${b.place} comes too near itself: gap ${words(b.value, 1)}, ${words(b.limit, 1)} wanted`;
    case 'order':
      return `runners.routes: ${b.place}`;
    default:
      return `${b.place}: gap ${words(b.value, 1)}, ${words(b.limit, 1)} wanted: ${by} short`;
  }
}

import { degrees } from '../geometry/angle.js';
import type { BrokenLimit } from '../routing/miss.js';

/** A limit that a set of routes breaks, with the field that sets it and by how much. */
export function brokenLimitWords(b: BrokenLimit): string {
  const by = `${(b.limit - b.value).toFixed(1)} mm`;
  switch (b.kind) {
    case 'length':
      return Number.isFinite(b.limit)
        ? `${b.place.startsWith('secondary') ? 'secondaries' : 'runners'}.length: ${b.place} needs at least about ${b.limit.toFixed(1)} mm, the target is ${b.value.toFixed(1)} mm: ${by} too short`
        : `${b.place}: no route of any length was found within its own limits`;
    case 'straight':
      return `tube.min_${b.family.replace(' ', '_')}: ${b.place} comes out at ${b.value.toFixed(1)} mm, ${b.limit.toFixed(1)} mm are wanted: ${by} short`;
    case 'angle': {
      const clr = Number(b.family.split(' ').at(-1));
      const angle = (arc: number): string => `${degrees(-arc / clr).toFixed(1)} deg`;
      return `tube.bends: ${b.place} takes ${angle(b.value)} at ${Number(clr.toFixed(2))} mm CLR, the stock bend has ${angle(b.limit)}`;
    }
    case 'step':
      return `tube.steps: ${b.place} falls within a bend that would have to move ${by}`;
    case 'self':
      return `${b.place} comes too near itself: gap ${b.value.toFixed(1)} mm, ${b.limit.toFixed(1)} mm wanted`;
    case 'order':
      return `runners.routes: ${b.place}`;
    default:
      return `${b.place}: gap ${b.value.toFixed(1)} mm, ${b.limit.toFixed(1)} mm wanted: ${by} short`;
  }
}

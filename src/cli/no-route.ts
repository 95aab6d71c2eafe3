import { degrees } from '../geometry/angle.js';
import type { BrokenLimit, Miss } from '../routing/miss.js';
import { CommandError, EXIT } from './exit-code.js';

/** How many broken limits are told; the worst come first. */
const TOLD = 6;

/** The end of a command when no set of routes holds: which limits bind and by how much. */
export function noRoute(miss: Miss): CommandError {
  const lines = miss.broken.slice(0, TOLD).map((b) => `  - ${wordsOf(b)}`);
  const more = miss.broken.length > TOLD ? [`  and ${miss.broken.length - TOLD} more`] : [];
  const why = lines.length > 0 ? ['the limits that bind in the nearest miss, worst first:', ...lines, ...more] : [];
  const message = ['no set of routes keeps all limits', ...why, 'Nothing was written. Ease one of these in the plan.'];
  return new CommandError(EXIT.noRoute, message.join('\n'), {
    broken: miss.broken.map((b) => ({ kind: b.kind, place: b.place, value_mm: b.value, limit_mm: b.limit })),
  });
}

function wordsOf(b: BrokenLimit): string {
  const by = `${(b.limit - b.value).toFixed(1)} mm`;
  switch (b.kind) {
    case 'length':
      return Number.isFinite(b.limit)
        ? `runners.length: ${b.place} needs at least about ${b.limit.toFixed(1)} mm, the target is ${b.value.toFixed(1)} mm: ${by} too short`
        : `runners.length: no route of any length was found for ${b.place} within its own limits`;
    case 'straight':
      return `tube.min_straight: ${b.place} comes out at ${b.value.toFixed(1)} mm, ${b.limit.toFixed(1)} mm are wanted: ${by} short`;
    case 'angle':
      return `tube.bends: ${b.place} needs more angle than the stock bend has: ${by} more along its arc (${degrees(-b.value).toFixed(0)} against ${degrees(-b.limit).toFixed(0)} deg mm)`;
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

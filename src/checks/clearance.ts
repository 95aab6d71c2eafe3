import type { Gap } from '../routing/clearance.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** What a gap may miss its limit by and still hold, mm: the error of the measurement. */
const MEASURED_WITHIN = 0.01;

const IDS: Readonly<Record<Gap['kind'], string>> = {
  primaries: 'clearance.primaries',
  'run-in': 'clearance.run-in',
  'kept-out': 'clearance.kept-out',
  self: 'clearance.self',
};

/** Every gap between primaries, to kept-out space and of a primary to itself. */
export function clearances({ gaps }: CheckContext): Finding[] {
  return gaps.map((g) => ({
    id: IDS[g.kind],
    level: g.value >= g.limit - MEASURED_WITHIN ? 'ok' : 'fail',
    place: placeOf(g),
    value: g.value,
    limit: g.limit,
    unit: 'mm',
    message: `Nearest at (${g.at.map((x) => x.toFixed(1)).join(', ')}) mm, ${g.run.toFixed(1)} mm from the head along cylinder ${g.cylinders[0]}: ${wordsOf(g)}`,
  }));
}

function placeOf(g: Gap): string {
  if (g.kind === 'self') return `cylinder ${g.cylinders[0]}, two passes of the same tube`;
  if (g.other !== null) return `cylinder ${g.cylinders[0]} and ${g.other}`;
  return `cylinders ${g.cylinders.join(' and ')}${g.kind === 'run-in' ? ', just before the inlets' : ''}`;
}

function wordsOf(g: Gap): string {
  if (g.value < 0) return `the skins overlap by ${(-g.value).toFixed(2)} mm.`;
  return `${g.value.toFixed(2)} mm between skins, ${g.limit.toFixed(2)} mm wanted.`;
}

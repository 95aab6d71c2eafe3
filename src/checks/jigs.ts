import { sizeWords } from '../params/faults/wording.js';
import { tooBigFor } from '../parts/printed-part.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** Every printed part against the printer's bed: by how much its worst side is too long. */
export function jigsFit({ plan, jigs }: CheckContext): Finding[] {
  return jigs.map((part) => {
    const over = Math.max(...part.size.map((s, i) => s - plan.jig.bed[i]!));
    const tooBig = tooBigFor(part.size, plan.jig.bed, plan.units);
    return {
      id: 'jig.bed',
      level: tooBig === null ? 'ok' : 'warn',
      place: part.name,
      value: Math.max(0, over),
      limit: 0,
      unit: 'mm',
      message: tooBig ?? `${sizeWords(part.size, plan.units, 1)} fits the bed.`,
    };
  });
}

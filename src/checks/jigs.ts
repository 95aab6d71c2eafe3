import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** Every printed part against the printer's bed: by how much its worst side is too long. */
export function jigsFit({ plan, jigs }: CheckContext): Finding[] {
  return jigs.map((part) => {
    const over = Math.max(...part.size.map((s, i) => s - plan.jig.bed[i]!));
    return {
      id: 'jig.bed',
      level: part.tooBig === null ? 'ok' : 'warn',
      place: part.name,
      value: Math.max(0, over),
      limit: 0,
      unit: 'mm',
      message: part.tooBig ?? `${part.size.map((s) => s.toFixed(1)).join(' x ')} mm fits the bed.`,
    };
  });
}

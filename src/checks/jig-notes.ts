import { sentence } from '../params/faults/wording.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/**
 * What the makers of the mock-up remark: a holder that no strut carries, a foot without room; for information, tubes without a comb. And
 * of the bench: a piece without a saddle.
 */
export const jigNotes = ({ jigNotes: notes, benchNotes = [] }: CheckContext): Finding[] => [
  ...notes.map((note) => remark(idOf(note), note)),
  ...benchNotes.map((note) => remark('jig.bench', note)),
];

/** A note's first word says what it is of. */
function idOf(note: string): string {
  if (note.startsWith('comb ')) return 'jig.comb';
  return note.startsWith('foot ') ? 'jig.tube-foot' : 'jig.holder';
}

function remark(id: string, note: string): Finding {
  const informs = id === 'jig.comb';
  return {
    id,
    level: informs ? 'ok' : 'warn',
    place: note.split(':')[0]!,
    value: informs ? 0 : 1,
    limit: 0,
    unit: 'count',
    message: sentence(note.slice(note.indexOf(':') + 1).trim()),
  };
}

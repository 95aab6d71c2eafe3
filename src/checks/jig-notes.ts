import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** What the makers of the mock-up remark: a holder that no strut carries. */
export const jigNotes = ({ jigNotes: notes }: CheckContext): Finding[] =>
  notes.map((note) => ({
    id: 'jig.holder',
    level: 'warn',
    place: note.split(':')[0]!,
    value: 1,
    limit: 0,
    unit: 'count',
    message: sentence(note.slice(note.indexOf(':') + 1).trim()),
  }));

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

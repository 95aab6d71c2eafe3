import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** What the makers of the mock-up remark: a holder that no strut carries. And of the bench: a piece without a saddle. */
export const jigNotes = ({ jigNotes: notes, benchNotes = [] }: CheckContext): Finding[] => [
  ...remarksOf('jig.holder', notes),
  ...remarksOf('jig.bench', benchNotes),
];

const remarksOf = (id: string, notes: readonly string[]): Finding[] =>
  notes.map((note) => ({
    id,
    level: 'warn',
    place: note.split(':')[0]!,
    value: 1,
    limit: 0,
    unit: 'count',
    message: sentence(note.slice(note.indexOf(':') + 1).trim()),
  }));

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

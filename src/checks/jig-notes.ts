import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** What the makers of the mock-up remark: a holder that no strut carries, a foot without room; and, for information, tubes without a comb. */
export const jigNotes = ({ jigNotes: notes }: CheckContext): Finding[] =>
  notes.map((note) => {
    const place = note.split(':')[0]!;
    const message = sentence(note.slice(note.indexOf(':') + 1).trim());
    if (place.startsWith('comb ')) {
      return { id: 'jig.comb', level: 'ok', place, value: 0, limit: 0, unit: 'count', message };
    }
    const id = place.startsWith('foot ') ? 'jig.foot' : 'jig.holder';
    return { id, level: 'warn', place, value: 1, limit: 0, unit: 'count', message };
  });

const sentence = (text: string): string => `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;

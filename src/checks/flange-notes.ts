import { sentence } from '../params/faults/wording.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';

/** What the plan's reader and the makers of the flanges remark, so that it stands in the summary. */
export const remarks = ({ plan, flanges }: CheckContext): Finding[] => [
  ...plan.notes.map((note) => remark('plan.note', 'plan', note)),
  ...flanges.flatMap((f) => f.notes.map((note) => remark('flange.note', f.name, note))),
];

const remark = (id: string, place: string, note: string): Finding => ({
  id,
  level: 'ok',
  place,
  value: 0,
  limit: 0,
  unit: 'count',
  message: sentence(note),
});

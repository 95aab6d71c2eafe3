import { type LengthWords, lengthsIn, pointWords } from '../params/faults/wording.js';
import type { Gap } from '../routing/clearance.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';
import { GAP_SLACK } from './slack.js';

const IDS: Readonly<Record<Gap['kind'], string>> = {
  tubes: 'clearance.tubes',
  approach: 'clearance.approach',
  'run-in': 'clearance.run-in',
  'kept-out': 'clearance.kept-out',
  self: 'clearance.self',
};

/** Every gap between tubes, to kept-out space and of a tube to itself. */
export function clearances({ plan, gaps }: CheckContext): Finding[] {
  const words = lengthsIn(plan.units);
  return gaps.map((g) => ({
    id: IDS[g.kind],
    level: g.value >= g.limit - GAP_SLACK ? 'ok' : 'fail',
    place: g.place,
    value: g.value,
    limit: g.limit,
    unit: 'mm',
    message: `Nearest at ${pointWords(g.at, plan.units, 1)}, ${words(g.run, 1)} along ${tubeName(g)}: ${wordsOf(g, words)}`,
  }));
}

/** The first tube a gap concerns, in words. */
const tubeName = (g: Gap): string =>
  /^\d+$/.test(g.tubes[0]!) ? `cylinder ${g.tubes[0]}` : `the secondary from ${g.tubes[0]}`;

function wordsOf(g: Gap, words: LengthWords): string {
  if (g.value < 0) return `the skins overlap by ${words(-g.value, 2)}.`;
  return `${words(g.value, 2)} between skins, ${words(g.limit, 2)} wanted.`;
}

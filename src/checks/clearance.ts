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
export function clearances({ gaps }: CheckContext): Finding[] {
  return gaps.map((g) => ({
    id: IDS[g.kind],
    level: g.value >= g.limit - GAP_SLACK ? 'ok' : 'fail',
    place: g.place,
    value: g.value,
    limit: g.limit,
    unit: 'mm',
    message: `Nearest at (${g.at.map((x) => x.toFixed(1)).join(', ')}) mm, ${g.run.toFixed(1)} mm along ${tubeName(g)}: ${wordsOf(g)}`,
  }));
}

/** The first tube a gap concerns, in words. */
const tubeName = (g: Gap): string =>
  /^\d+$/.test(g.tubes[0]!) ? `cylinder ${g.tubes[0]}` : `the secondary from ${g.tubes[0]}`;

function wordsOf(g: Gap): string {
  if (g.value < 0) return `the skins overlap by ${(-g.value).toFixed(2)} mm.`;
  return `${g.value.toFixed(2)} mm between skins, ${g.limit.toFixed(2)} mm wanted.`;
}

import type { PlanFault } from '../faults/plan-problem.js';
import { either, lengthWords, show } from '../faults/wording.js';
import { placedCollectors } from '../resolve/collectors.js';
import type { Draft } from '../resolve/draft.js';
import { placedHeads } from '../resolve/heads.js';

/** The mock-up against what it stands for: walls and cord against the tube, bolts and collector by name. */
export function jigRules(draft: Draft): PlanFault[] {
  return [...thinTube(draft), ...footBolts(draft), ...heldCollector(draft)];
}

/** The key of a slim tube takes a cord of a fifth of the tube less 2 mm, so that 1.2 mm of it stay all round. */
function thinTube({ sections: { jig, tube, units = 'mm' } }: Draft): PlanFault[] {
  if (jig === undefined || tube === undefined) return [];
  const words = (mm: number) => lengthWords(mm, units);
  const of = `a tube of ${words(tube.od)}`;
  const widest = Math.max(0, tube.od / 5 - 2);
  const faults: PlanFault[] = [];
  if (jig.cord !== undefined && jig.cord > widest) {
    const most = widest < 1 ? 'too slim for any' : `wide enough for ${words(widest)} at most`;
    faults.push({ path: ['jig', 'cord'], message: `the keys of ${of} are ${most}, found ${words(jig.cord)}` });
  }
  if (jig.tube === 'hollow' && jig.tube_wall > tube.od / 3) {
    const message = `expected at most a third of ${of} (${words(tube.od / 3)}), found ${words(jig.tube_wall)}`;
    faults.push({ path: ['jig', 'tube_wall'], message });
  }
  return faults;
}

function footBolts({ sections }: Draft): PlanFault[] {
  const foot = sections.jig?.foot;
  if (foot === undefined || typeof foot === 'boolean') return [];
  const most = Math.max(0, ...placedHeads(sections).map((h) => h.section.bolts.length));
  if (most === 0) return [];
  return foot.bolts.flatMap((bolt, i): PlanFault[] =>
    bolt <= most
      ? []
      : [{ path: ['jig', 'foot', 'bolts', i], message: `expected a bolt from 1 to ${most}, found ${bolt}` }],
  );
}

function heldCollector({ sections }: Draft): PlanFault[] {
  const name = sections.jig?.holder?.collector;
  if (name === undefined) return [];
  const names = placedCollectors(sections, []).map((c) => c.name);
  if (names.length === 0 || names.includes(name)) return [];
  const message = `no collector is named ${show(name)}; there ${names.length === 1 ? 'is' : 'are'} ${either(names.map(show), 'and')}`;
  return [{ path: ['jig', 'holder', 'collector'], message }];
}

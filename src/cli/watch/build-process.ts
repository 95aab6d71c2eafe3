import { basename, dirname } from 'node:path';
import type { Finding } from '../../checks/finding.js';
import { sceneOf } from '../../export/book/scene.js';
import type { SceneData } from '../../export/book/scene-data.js';
import type { OutputFile } from '../../export/output-file.js';
import { outputsOf } from '../../outputs.js';
import { buildHeader, routeHeader, verdictOf } from '../../pipeline.js';
import { bookScript } from '../page-script.js';
import { planFileReader, readAimedPlan } from '../plan-file.js';
import { timeBudget } from '../time-budget.js';

/** A text of the plan whose parts are to be built. */
export interface BuildJob {
  readonly path: string;
  readonly text: string;
}

/** What the process says. */
export type BuildNews =
  | { readonly news: 'step'; readonly words: string }
  | {
      readonly news: 'built';
      readonly files: readonly OutputFile[];
      readonly findings: readonly Finding[];
      readonly verdict: string;
      readonly scene: SceneData;
    }
  | { readonly news: 'failed'; readonly words: string };

const tell = (news: BuildNews): Promise<void> =>
  new Promise((sent) => process.send!(news, undefined, {}, () => sent()));

/** Builds one plan whole. The files stay in memory. */
async function build({ path, text }: BuildJob): Promise<void> {
  const step = (words: string): void => void tell({ news: 'step', words });
  const read = readAimedPlan(text, path, planFileReader(dirname(path)));
  if (!read.ok) return tell({ news: 'failed', words: read.text });
  const routing = routeHeader(read.plan, { goOn: timeBudget(read.plan.runners.budget) }, step);
  if (!routing.ok) return tell({ news: 'failed', words: 'no set of routes keeps all limits' });
  const built = await buildHeader(routing.header, step);
  const { files } = outputsOf(built, [], step, { script: await bookScript(), source: { name: basename(path), text } });
  const findings = built.findings.filter((f) => f.level !== 'ok');
  return tell({ news: 'built', files, findings, verdict: verdictOf(built), scene: sceneOf(built) });
}

// Runs in a process of its own, one for each build, so that it can be ended at any time without harm to the server.
process.once('message', (job: BuildJob) => {
  build(job).then(
    () => process.disconnect(),
    async (error: unknown) => {
      await tell({ news: 'failed', words: error instanceof Error ? error.message : String(error) });
      process.disconnect();
    },
  );
});

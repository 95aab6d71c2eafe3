import { dirname } from 'node:path';
import type { BenchHeader, BenchProblem } from '../../export/book/bench-data.js';
import { benchHeader } from '../../export/book/bench-header.js';
import type { PlanProblem } from '../../params/faults/plan-problem.js';
import type { Plan } from '../../params/plan.js';
import { type Editable, editableOf } from '../../params/plan-edit/editable.js';
import { followHeader, type RoutedHeader, routeHeader, verdictOf } from '../../pipeline.js';
import type { EarlierRoute } from '../../routing/follow.js';
import { planFileReader, readAimedPlan } from '../plan-file.js';
import { noRoute } from '../report/no-route.js';
import { timeBudget } from '../time-budget.js';
import { textHash } from './save-plan.js';

/** A text of the plan to be read and routed. */
export interface RoutingJob {
  readonly id: number;
  /** Plan file: names it in messages, and its folder holds the files it names. */
  readonly path: string;
  readonly text: string;
  /** read: no routes. follow: earlier routes bent to fit, or nothing. route: what a build gives. both: the one, then the other. */
  readonly how: 'read' | 'follow' | 'route' | 'both';
  /** Whose earlier routes these follow: the file's, or an open page's. */
  readonly lane: string;
}

/** What becomes known of a job, in this order. */
export type RoutingNews =
  | {
      readonly news: 'read';
      readonly editable: Editable | null;
      readonly problems: readonly BenchProblem[];
      /** The problems as the command line prints them. */
      readonly words: string;
      /** Files the plan names, as it names them. */
      readonly files: readonly string[];
    }
  | { readonly news: 'header'; readonly header: BenchHeader }
  | { readonly news: 'no-route'; readonly words: string }
  | { readonly news: 'cannot-follow' }
  | { readonly news: 'superseded' };

/** Earlier routes of every lane, for the next job of that lane to follow. */
export type EarlierRoutes = Map<string, readonly EarlierRoute[]>;

/** Lanes remembered at most: the file's and the latest pages'. */
const MOST_LANES = 32;

/** Lane of the plan file itself. */
export const FILE_LANE = 'file';

/** Reads and routes a text; tells what becomes known on the way. `isWanted` turns false when nobody waits for the outcome any more. */
export function doRouting(
  job: RoutingJob,
  earlier: EarlierRoutes,
  isWanted: () => boolean,
  tell: (news: RoutingNews) => void,
): void {
  const { path, text, how, lane } = job;
  const { plan, news } = readJob(path, text);
  tell(news);
  if (plan === null || how === 'read') return;
  const base = textHash(text);
  const known = earlier.get(lane) ?? earlier.get(FILE_LANE);
  const routed = (header: RoutedHeader, kind: BenchHeader['kind']): void => {
    remember(earlier, lane, [...header.primaries, ...header.secondaries]);
    tell({ news: 'header', header: benchHeader(header, { base, kind, verdict: verdictOf(header) }) });
  };
  if (how !== 'route') {
    const followed = known ? followHeader(plan, known) : null;
    if (followed) routed(followed, 'followed');
    else if (how === 'follow') tell({ news: 'cannot-follow' });
  }
  if (how === 'follow') return;
  const inTime = timeBudget(plan.runners.budget);
  const routing = routeHeader(plan, { goOn: (share) => isWanted() && inTime(share) });
  if (!isWanted()) tell({ news: 'superseded' });
  else if (routing.ok) routed(routing.header, 'routed');
  else tell({ news: 'no-route', words: withoutEnd(noRoute(routing.miss, plan.units).message) });
}

/** Nothing is ever written by a look: the last line of the command's words is left out. */
const withoutEnd = (message: string): string => message.replace(/\nNothing was written\.(?= |$)/, '\n').trimEnd();

function remember(earlier: EarlierRoutes, lane: string, routes: readonly EarlierRoute[]): void {
  earlier.delete(lane);
  earlier.set(
    lane,
    routes.map(({ id, inlet, polygon }) => ({ id, inlet, polygon })),
  );
  const oldest = [...earlier.keys()].find((key) => key !== FILE_LANE);
  if (earlier.size > MOST_LANES && oldest !== undefined) earlier.delete(oldest);
}

function readJob(path: string, text: string): { readonly plan: Plan | null; readonly news: RoutingNews } {
  const files = new Set<string>();
  const fromFolder = planFileReader(dirname(path));
  const read = readAimedPlan(text, path, (name, most) => {
    files.add(name);
    return fromFolder(name, most);
  });
  const found = { news: 'read', files: [...files] } as const;
  if (read.ok) {
    return { plan: read.plan, news: { ...found, editable: editableOf(text, read.plan), problems: [], words: '' } };
  }
  return { plan: null, news: { ...found, editable: null, problems: withLines(read.problems, text), words: read.text } };
}

/** Problems with the text of their lines. */
function withLines(problems: readonly PlanProblem[], text: string): BenchProblem[] {
  const lines = text.split(/\r?\n/);
  return problems.map((p) => ({ ...p, text: (lines[p.line - 1] ?? '').slice(0, 300) }));
}

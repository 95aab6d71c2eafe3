import { dirname, resolve } from 'node:path';
import type {
  BenchFile,
  BenchHeader,
  BenchOutputs,
  SaveAnswer,
  SaveRequest,
  TrialAnswer,
  TrialRequest,
} from '../../export/book/bench-data.js';
import type { OutputFile } from '../../export/output-file.js';
import { CommandError } from '../exit-code.js';
import { readPlanFile } from '../read-file.js';
import { attemptChanges, type PlanOnFile, saveChanges } from './bench-changes.js';
import { benchParts } from './bench-parts.js';
import { planWatcher } from './plan-watcher.js';
import { type DeskNews, routingDesk } from './routing-desk.js';
import { FILE_LANE } from './routing-job.js';
import { textHash } from './save-plan.js';

/** What pages are told: each part whenever it changes. */
export interface BenchNews {
  readonly file: BenchFile;
  readonly header: BenchHeader | null;
  readonly outputs: BenchOutputs;
}

/** A plan on the bench: watched, routed and built as it changes, tried with changes, and written. */
export interface Bench {
  readonly now: () => BenchNews;
  readonly outputOf: (id: number) => OutputFile | null;
  readonly attempt: (request: TrialRequest) => Promise<TrialAnswer>;
  readonly save: (request: SaveRequest) => Promise<SaveAnswer>;
  readonly close: () => Promise<void>;
}

/** How often a text is routed when the routing dies of it. */
const TRIES = 2;

/** Puts a plan on the bench. `tell` hears which part is new. */
export function openBench(path: string, tell: (part: keyof BenchNews) => void): Bench {
  const desk = routingDesk();
  const parts = benchParts(() => tell('outputs'));
  let text = '';
  let file: BenchFile = { name: path, base: '', state: 'routing', words: '', problems: [], editable: null };
  let header: BenchHeader | null = null;
  const plan = (): PlanOnFile => ({ path, text, base: file.base });
  const setFile = (change: Partial<BenchFile>): void => {
    file = { ...file, ...change };
    tell('file');
  };

  /** Reads the file again; without `anyway` only another text counts. */
  const reload = async (anyway: boolean): Promise<void> => {
    const read = await readPlanFile(path).catch(wordsOf);
    if (typeof read !== 'string') {
      text = '';
      parts.stop();
      setFile({ base: '', state: 'gone', words: read.words, problems: [], editable: null });
      return;
    }
    const base = textHash(read);
    if (base === file.base && !anyway) return;
    text = read;
    parts.stop();
    setFile({ base, state: 'routing', words: 'routing the tubes' });
    route(TRIES);
  };
  /** One reading after another; done when the file is read, before it is routed. */
  let reading: Promise<void> = Promise.resolve();
  const readAgain = (anyway: boolean): Promise<void> => {
    reading = reading
      .then(() => reload(anyway))
      .catch((error: unknown) => setFile({ state: 'stopped', words: `the plan could not be read: ${String(error)}` }));
    return reading;
  };

  const route = (tries: number): void => {
    const asked = plan();
    void desk.ask({ path, text: asked.text, how: 'both', lane: FILE_LANE }, (news) => {
      // what was asked for an earlier text comes too late
      if (file.base === asked.base) hear(news, asked, tries);
    });
  };
  const hear = (news: DeskNews, asked: PlanOnFile, tries: number): void => {
    if (news.news === 'read') {
      watcher.alsoWatch(news.files.map((name) => resolve(dirname(path), name)));
      if (news.editable) setFile({ editable: news.editable, problems: [] });
      else setFile({ state: 'faulty', words: news.words, problems: news.problems, editable: null });
    } else if (news.news === 'header') {
      header = news.header;
      tell('header');
      if (header.kind === 'followed') return;
      setFile({ state: 'routed', words: header.verdict });
      parts.startSoon(path, asked.text, asked.base);
    } else if (news.news === 'no-route') {
      setFile({ state: 'no-route', words: news.words });
    } else if (news.news === 'died') {
      const end = tries > 1 ? 'it is started again' : 'it is started again with the next save';
      setFile({ state: 'stopped', words: `the routing was stopped (${news.words}): ${end}` });
      if (tries > 1) route(tries - 1);
    }
  };

  const watcher = planWatcher(path, (others) => void readAgain(others));
  void readAgain(true);
  return {
    now: () => ({ file, header, outputs: parts.now() }),
    outputOf: parts.outputOf,
    attempt: (request) => attemptChanges(plan(), desk, request),
    save: async (request) => {
      const answer = await saveChanges(plan(), desk, request);
      await readAgain(false);
      return answer;
    },
    close: async () => {
      parts.stop();
      await watcher.close();
      await desk.close();
    },
  };
}

/** Why a file cannot be read, in words; any other error is thrown on. */
function wordsOf(error: unknown): { readonly words: string } {
  if (error instanceof CommandError) return { words: error.message };
  throw error;
}

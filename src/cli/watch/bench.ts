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
import { applyEdits } from '../../params/plan-edit/apply-edits.js';
import type { Editable } from '../../params/plan-edit/editable.js';
import { CommandError } from '../exit-code.js';
import { readPlanFile } from '../read-file.js';
import { buildDesk } from './build-desk.js';
import { type PlanWatcher, planWatcher } from './plan-watcher.js';
import { type DeskNews, routingDesk } from './routing-desk.js';
import { FILE_LANE } from './routing-job.js';
import { savePlan, textHash } from './save-plan.js';

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

/** How long routes stand before parts are built from them, ms: while somebody saves again and again only routes follow. */
const BUILD_AFTER = 400;

const NO_OUTPUTS: BenchOutputs = {
  base: '',
  state: 'none',
  words: '',
  files: [],
  findings: [],
  verdict: '',
  scene: null,
};

/** Puts a plan on the bench. `tell` hears which part is new. */
export function openBench(path: string, tell: (part: keyof BenchNews) => void): Bench {
  const desk = routingDesk();
  const builder = buildDesk();
  let text = '';
  let file: BenchFile = { name: path, base: '', state: 'routing', words: '', problems: [], editable: null };
  let header: BenchHeader | null = null;
  let outputs = NO_OUTPUTS;
  let produced = new Map<number, OutputFile>();
  let lastId = 0;
  let buildTimer: NodeJS.Timeout | undefined;
  let watcher: PlanWatcher | null = null;

  const setFile = (change: Partial<BenchFile>): void => {
    file = { ...file, ...change };
    tell('file');
  };
  const setOutputs = (change: Partial<BenchOutputs>): void => {
    outputs = { ...outputs, ...change };
    tell('outputs');
  };

  /** Reads the file again; without `anyway` only another text counts. */
  const reload = async (anyway: boolean): Promise<void> => {
    const read = await readPlanFile(path).catch((error: unknown) => {
      if (!(error instanceof CommandError)) throw error;
      return error;
    });
    if (read instanceof CommandError) {
      text = '';
      noBuild();
      return setFile({ base: '', state: 'gone', words: read.message, problems: [], editable: null });
    }
    const base = textHash(read);
    if (base === file.base && !anyway) return;
    text = read;
    noBuild();
    setFile({ base, state: 'routing', words: 'routing the tubes' });
    void route(2);
  };

  const route = async (tries: number): Promise<void> => {
    const { base } = file;
    const own = text;
    const hear = (news: DeskNews): void => {
      if (file.base !== base) return;
      if (news.news === 'read') {
        watcher?.alsoWatch(news.files.map((name) => resolve(dirname(path), name)));
        if (news.editable) setFile({ editable: news.editable, problems: [] });
        else setFile({ state: 'faulty', words: news.words, problems: news.problems, editable: null });
      } else if (news.news === 'header') {
        header = news.header;
        tell('header');
        if (header.kind === 'followed') return;
        setFile({ state: 'routed', words: header.verdict });
        buildTimer = setTimeout(() => build(base, own), BUILD_AFTER);
      } else if (news.news === 'no-route') {
        setFile({ state: 'no-route', words: news.words });
      } else if (news.news === 'died') {
        const end = tries > 1 ? 'it is started again' : 'it is started again with the next save';
        setFile({ state: 'stopped', words: `the routing was stopped (${news.words}): ${end}` });
        if (tries > 1) void route(tries - 1);
      }
    };
    await desk.ask({ path, text: own, how: 'both', lane: FILE_LANE }, hear);
  };

  const noBuild = (): void => {
    clearTimeout(buildTimer);
    builder.stop();
    if (outputs.state === 'building') setOutputs({ state: 'none', words: '' });
  };

  const build = (base: string, own: string): void => {
    setOutputs({ state: 'building', words: 'building the parts' });
    builder.start({ path, text: own }, (news) => {
      if (news.news === 'step') {
        setOutputs({ state: 'building', words: news.words });
      } else if (news.news === 'failed') {
        setOutputs({ state: 'failed', words: news.words });
      } else if (news.news === 'died') {
        const end = news.again ? 'it is started again' : 'it is started again with the next save';
        const words = `the build of the parts was stopped: ${end}`;
        setOutputs({ state: news.again ? 'building' : 'stopped', words });
      } else {
        produced = new Map(news.files.map((f) => [++lastId, f]));
        const files = [...produced].map(([id, f]) => ({ id, path: f.path, kind: f.kind, bytes: f.bytes.length }));
        const { findings, verdict, scene } = news;
        setOutputs({ base, state: 'built', words: '', files, findings, verdict, scene });
      }
    });
  };

  const unchanged = (base: string): boolean => base === file.base && file.base !== '';
  const CONFLICT = { answer: 'conflict', words: 'the plan file is another by now: make the changes again' } as const;

  const attempt = async ({ client, base, edits, how }: TrialRequest): Promise<TrialAnswer> => {
    if (!unchanged(base)) return CONFLICT;
    const edited = applyEdits(text, edits);
    if (!edited.ok) return { answer: 'faulty', words: edited.message, problems: [] };
    let answer: TrialAnswer = { answer: 'superseded' };
    let editable: Editable | null = null;
    await desk.ask({ path, text: edited.text, how, lane: `page ${client}` }, (news) => {
      if (news.news === 'read') {
        editable = news.editable;
        if (!editable) answer = { answer: 'faulty', words: news.words, problems: news.problems };
      } else if (news.news === 'header') answer = { answer: 'header', header: news.header, editable: editable! };
      else if (news.news === 'no-route') answer = { answer: 'no-route', words: news.words, editable: editable! };
      else if (news.news === 'died') answer = { answer: 'failed', words: `the routing was stopped: ${news.words}` };
      else answer = { answer: news.news };
    });
    return answer;
  };

  const save = async ({ base, edits }: SaveRequest): Promise<SaveAnswer> => {
    if (!unchanged(base)) return CONFLICT;
    const edited = applyEdits(text, edits);
    if (!edited.ok) return { answer: 'faulty', words: edited.message, problems: [] };
    if (edited.text === text) return { answer: 'saved', words: 'the plan says so already: nothing was written', base };
    let answer: SaveAnswer | null = { answer: 'failed', words: 'the plan could not be read; nothing was written' };
    await desk.ask({ path, text: edited.text, how: 'read', lane: `save ${textHash(edited.text)}` }, (news) => {
      if (news.news !== 'read') return;
      answer = news.editable ? null : { answer: 'faulty', words: news.words, problems: news.problems };
    });
    if (answer !== null) return answer;
    const saved = await savePlan(path, base, edited.text);
    await readAgain(false);
    if (!saved.ok) return { answer: saved.conflict ? 'conflict' : 'failed', words: saved.words };
    return {
      answer: 'saved',
      words: `written; the earlier version is kept as ${saved.backup}`,
      base: textHash(edited.text),
    };
  };

  /** One reading after another; done when the file is read, before it is routed. */
  let reading: Promise<void> = Promise.resolve();
  const readAgain = (anyway: boolean): Promise<void> => {
    reading = reading
      .then(() => reload(anyway))
      .catch((error: unknown) => setFile({ state: 'stopped', words: `the plan could not be read: ${String(error)}` }));
    return reading;
  };

  watcher = planWatcher(path, (others) => void readAgain(others));
  void readAgain(true);

  return {
    now: () => ({ file, header, outputs }),
    outputOf: (id) => produced.get(id) ?? null,
    attempt,
    save,
    close: async () => {
      clearTimeout(buildTimer);
      builder.stop();
      await watcher?.close();
      await desk.close();
    },
  };
}

import type { BenchOutputs } from '../../export/book/bench-data.js';
import type { OutputFile } from '../../export/output-file.js';
import { type BuildDeskNews, buildDesk } from './build-desk.js';

/** The parts of a plan and their files, built beside the routes; the files stay in memory. */
export interface BenchParts {
  readonly now: () => BenchOutputs;
  readonly outputOf: (id: number) => OutputFile | null;
  /** Builds soon, unless another plan comes first. `base` is the SHA-256 of the text. */
  readonly startSoon: (path: string, text: string, base: string) => void;
  readonly stop: () => void;
}

/** How long routes stand before parts are built from them, ms: while somebody saves again and again only routes follow. */
const BUILD_AFTER = 400;

const NONE: BenchOutputs = { base: '', state: 'none', words: '', files: [], findings: [], verdict: '', scene: null };

/** `tell` hears that something is new. */
export function benchParts(tell: () => void): BenchParts {
  const desk = buildDesk();
  let outputs = NONE;
  let produced = new Map<number, OutputFile>();
  let lastId = 0;
  let timer: NodeJS.Timeout | undefined;

  const set = (change: Partial<BenchOutputs>): void => {
    outputs = { ...outputs, ...change };
    tell();
  };
  const hear = (news: BuildDeskNews, base: string): void => {
    if (news.news === 'step') {
      set({ state: 'building', words: news.words });
    } else if (news.news === 'failed') {
      set({ state: 'failed', words: news.words });
    } else if (news.news === 'died') {
      const end = news.again ? 'it is started again' : 'it is started again with the next save';
      const words = `the build of the parts was stopped: ${end}`;
      set({ state: news.again ? 'building' : 'stopped', words });
    } else {
      produced = new Map(news.files.map((f) => [++lastId, f]));
      const files = [...produced].map(([id, f]) => ({ id, path: f.path, kind: f.kind, bytes: f.bytes.length }));
      const { findings, verdict, scene } = news;
      set({ base, state: 'built', words: '', files, findings, verdict, scene });
    }
  };
  const stop = (): void => {
    clearTimeout(timer);
    desk.stop();
  };
  return {
    now: () => outputs,
    outputOf: (id) => produced.get(id) ?? null,
    startSoon: (path, text, base) => {
      stop();
      timer = setTimeout(() => {
        set({ state: 'building', words: 'building the parts' });
        desk.start({ path, text }, (news) => hear(news, base));
      }, BUILD_AFTER);
    },
    stop: () => {
      stop();
      if (outputs.state === 'building') set({ state: 'none', words: '' });
    },
  };
}

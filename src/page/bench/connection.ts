import type {
  BenchFile,
  BenchHeader,
  BenchOutputs,
  SaveAnswer,
  SaveRequest,
  TrialAnswer,
  TrialRequest,
} from '../../export/book/bench-data.js';

/** What the server tells by itself. */
export interface Told {
  readonly file: (file: BenchFile) => void;
  readonly header: (header: BenchHeader | null) => void;
  readonly outputs: (outputs: BenchOutputs) => void;
  /** Whether the server is there. */
  readonly reached: (reached: boolean) => void;
}

/** The way to the server that gave this page. */
export interface Connection {
  readonly listen: (told: Told) => void;
  readonly attempt: (request: Omit<TrialRequest, 'client'>) => Promise<TrialAnswer>;
  readonly save: (request: SaveRequest) => Promise<SaveAnswer>;
  /** Address of a file that was built. */
  readonly outputUrl: (id: number) => string;
}

interface Failed {
  readonly answer: 'failed';
  readonly words: string;
}

const failed = (words: string): Failed => ({ answer: 'failed', words });

/** With the token of the page's own address. */
export function connection(): Connection {
  const token = new URLSearchParams(location.search).get('token') ?? '';
  const client = crypto.randomUUID().replaceAll('-', '');
  const url = (path: string): string => `${path}?token=${encodeURIComponent(token)}`;
  const post = async <T>(path: string, body: unknown): Promise<T | Failed> => {
    try {
      const headers = { 'content-type': 'application/json' };
      const response = await fetch(url(path), { method: 'POST', headers, body: JSON.stringify(body) });
      if (response.ok) return (await response.json()) as T;
      return failed(`the server refused: ${(await response.text()).trim()}`);
    } catch {
      return failed('the server does not answer: is evenrun watch still running?');
    }
  };
  return {
    listen: (told) => {
      const events = new EventSource(url('/events'));
      const hear = <T>(name: string, act: (data: T) => void): void =>
        events.addEventListener(name, (e) => act(JSON.parse((e as MessageEvent<string>).data) as T));
      hear('file', told.file);
      hear('header', told.header);
      hear('outputs', told.outputs);
      events.addEventListener('open', () => told.reached(true));
      events.addEventListener('error', () => told.reached(false));
    },
    attempt: (request) => post<TrialAnswer>('/trial', { ...request, client }),
    save: (request) => post<SaveAnswer>('/save', request),
    outputUrl: (id) => url(`/out/${id}`),
  };
}

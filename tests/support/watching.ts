import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { BenchFile, BenchHeader, BenchOutputs } from '../../src/export/book/bench-data.js';

const MAIN = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

/** What a listener has heard last. */
export interface Heard {
  file: BenchFile | null;
  header: BenchHeader | null;
  outputs: BenchOutputs | null;
}

/** A running `evenrun watch` on a plan in a folder of its own. */
export interface Watching {
  readonly folder: string;
  readonly plan: string;
  readonly url: string;
  readonly origin: string;
  readonly port: number;
  readonly token: string;
  readonly process: ChildProcess;
  readonly write: (text: string) => void;
  readonly read: () => string;
  /** A page that listens. */
  readonly listen: () => Promise<Listener>;
  readonly post: (path: string, body: unknown) => Promise<{ status: number; said: Record<string, unknown> }>;
  /** Ends it as Ctrl-C does; gives its exit code. */
  readonly stop: () => Promise<number | null>;
}

export interface Listener {
  readonly heard: Heard;
  /** Until what was heard will do. */
  readonly until: (will: (heard: Heard) => boolean, what: string) => Promise<void>;
  readonly close: () => void;
}

/** Starts the built command. */
export async function watchPlan(text: string, name = 'plan.yaml'): Promise<Watching> {
  const folder = mkdtempSync(join(tmpdir(), 'evenrun-watch-'));
  const plan = join(folder, name);
  writeFileSync(plan, text);
  const child = spawn(process.execPath, [MAIN, 'watch', name, '--json'], {
    cwd: folder,
    env: { ...process.env, NO_COLOR: '1' },
  });
  let err = '';
  child.stderr.on('data', (data) => {
    err += String(data);
  });
  const first = await new Promise<string>((told, failed) => {
    child.stdout.once('data', (data) => told(String(data)));
    child.once('exit', (code) => failed(new Error(`evenrun watch ended with ${code}: ${err}`)));
  });
  const { url } = JSON.parse(first) as { url: string };
  const { origin, port, searchParams } = new URL(url);
  const token = searchParams.get('token')!;
  const address = (path: string): string => `${origin}${path}?token=${token}`;
  const listeners: Listener[] = [];
  return {
    folder,
    plan,
    url,
    origin,
    port: Number(port),
    token,
    process: child,
    write: (changed) => writeFileSync(plan, changed),
    read: () => readFileSync(plan, 'utf8'),
    listen: async () => {
      const listener = await listenTo(address('/events'));
      listeners.push(listener);
      return listener;
    },
    post: async (path, body) => {
      const headers = { 'content-type': 'application/json', origin };
      const response = await fetch(address(path), { method: 'POST', headers, body: JSON.stringify(body) });
      const said = await response.text();
      return { status: response.status, said: said.startsWith('{') ? JSON.parse(said) : { said } };
    },
    stop: async () => {
      for (const listener of listeners) listener.close();
      const ended = new Promise<number | null>((done) => child.once('exit', done));
      if (child.exitCode === null) child.kill('SIGINT');
      const code = child.exitCode ?? (await ended);
      rmSync(folder, { recursive: true, force: true });
      return code;
    },
  };
}

async function listenTo(address: string): Promise<Listener> {
  const stop = new AbortController();
  const response = await fetch(address, { signal: stop.signal });
  if (!response.ok) throw new Error(`${response.status} ${await response.text()}`);
  const heard: Heard = { file: null, header: null, outputs: null };
  const waiting = new Set<() => void>();
  void read(response, (name, data) => {
    Object.assign(heard, { [name]: data });
    for (const look of waiting) look();
  });
  return {
    heard,
    until: (will, what) =>
      new Promise((done, failed) => {
        const end = (act: () => void): void => {
          clearTimeout(timer);
          waiting.delete(look);
          act();
        };
        const look = (): void => {
          if (will(heard)) end(done);
        };
        const now = (): string =>
          JSON.stringify([heard.file?.state, heard.file?.words, heard.outputs?.state, heard.outputs?.words]);
        const timer = setTimeout(
          () => end(() => failed(new Error(`waited in vain for ${what}; last heard ${now()}`))),
          90_000,
        );
        waiting.add(look);
        look();
      }),
    close: () => stop.abort(),
  };
}

async function read(response: Response, tell: (name: string, data: unknown) => void): Promise<void> {
  const decoder = new TextDecoder();
  let rest = '';
  try {
    for await (const part of response.body as unknown as AsyncIterable<Uint8Array>) {
      rest += decoder.decode(part, { stream: true });
      const whole = rest.split('\n\n');
      rest = whole.pop()!;
      for (const event of whole) {
        const [, name, data] = /^event: (\w+)\ndata: (.*)$/.exec(event) ?? [];
        if (name) tell(name, JSON.parse(data!));
      }
    }
  } catch {
    // closed by us, or the server is gone: whoever waits will say so
  }
}

/** Processes another process has started, by its number; null where the system does not tell. */
export function childrenOf(pid: number): number[] | null {
  try {
    return readdirSync('/proc').flatMap((name) => {
      if (!/^\d+$/.test(name)) return [];
      try {
        const stat = readFileSync(`/proc/${name}/stat`, 'utf8');
        const [state, parent] = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
        return Number(parent) === pid && state !== 'Z' ? [Number(name)] : [];
      } catch {
        return [];
      }
    });
  } catch {
    return null;
  }
}

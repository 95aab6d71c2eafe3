import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { memoryOf } from './memory.js';

/** What a command did, watched from outside. */
export interface WatchedRun {
  /** Null when it was killed. */
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
  readonly seconds: number;
  /** Most memory it held at any look, MB; null where the system does not tell. */
  readonly peak: number | null;
}

export interface Watching {
  readonly cwd: string;
  /** Killed when it takes longer, s. */
  readonly longest?: number;
  /** Told of each line on stderr as it comes: the process, its number from 1. */
  readonly onLine?: (kill: () => void, line: string, number: number, pid: number) => void;
}

/** Memory is looked at so often, ms. */
const LOOK = 50;

/** Runs node with the arguments to its end and looks at its memory on the way. */
export function watchedRun(args: readonly string[], { cwd, longest, onLine }: Watching): Promise<WatchedRun> {
  const from = performance.now();
  const child = spawn(process.execPath, args, {
    cwd,
    stdio: ['ignore', 'pipe', 'pipe'],
    env: { ...process.env, NO_COLOR: '1' },
  });
  let [out, err, lines] = ['', '', 0];
  let peak: number | null = null;
  const look = (): void => {
    const memory = child.pid === undefined ? null : memoryOf(child.pid);
    if (memory !== null) peak = Math.max(peak ?? 0, memory.peak);
  };
  const looking = setInterval(look, LOOK);
  const over = longest === undefined ? undefined : setTimeout(() => child.kill('SIGKILL'), 1000 * longest);
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    out += text;
  });
  createInterface({ input: child.stderr }).on('line', (line) => {
    err += `${line}\n`;
    lines += 1;
    onLine?.(() => child.kill('SIGKILL'), line, lines, child.pid!);
  });
  return new Promise((done) => {
    child.once('close', (code) => {
      clearInterval(looking);
      clearTimeout(over);
      done({ code, out, err, seconds: (performance.now() - from) / 1000, peak });
    });
  });
}

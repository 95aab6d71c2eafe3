import { spawn } from 'node:child_process';
import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';

/** One name for the whole content of a folder: paths and bytes. */
export function contentOf(folder: string): string {
  const hash = createHash('sha256');
  const names = readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((e) => e.isFile())
    .map((e) => join(e.parentPath, e.name))
    .sort();
  for (const name of names) hash.update(name.slice(folder.length)).update('\0').update(readFileSync(name));
  return hash.digest('hex');
}

export interface Tally {
  kills: number;
  /** Runs that ended before the kill. */
  finished: number;
  earlier: number;
  newer: number;
  /** Stood whole under a hidden name beside the folder. */
  beside: number;
  broken: number;
}

/**
 * Starts a command again and again, kills it after a random part of its usual time and looks at the folder: it must hold one of the
 * whole contents, or stand whole beside under a hidden name. `random` gives numbers from 0 to 1; `usual` is in ms.
 */
export async function killAtRandom(
  command: (run: number) => readonly string[],
  folder: string,
  whole: readonly [string, string],
  { kills, usual, random, cwd }: { kills: number; usual: number; random: () => number; cwd: string },
): Promise<Tally> {
  const tally: Tally = { kills: 0, finished: 0, earlier: 0, newer: 0, beside: 0, broken: 0 };
  let before = contentOf(folder);
  while (tally.kills < kills) {
    const child = spawn(process.execPath, command(tally.kills + tally.finished), { cwd, stdio: 'ignore' });
    const ended = new Promise<boolean>((done) => child.once('exit', (_, signal) => done(signal === 'SIGKILL')));
    const killer = pause(random() * usual).then(() => child.kill('SIGKILL'));
    const [killed] = await Promise.all([ended, killer]);
    if (killed) tally.kills += 1;
    else tally.finished += 1;
    const found = existsSync(folder) ? contentOf(folder) : null;
    if (found === null) tally[standsBeside(folder, before) ? 'beside' : 'broken'] += 1;
    else if (found === before) tally.earlier += 1;
    else if (whole.includes(found)) tally.newer += 1;
    else tally.broken += 1;
    before = found ?? before;
  }
  return tally;
}

function standsBeside(folder: string, content: string): boolean {
  const [parent, name] = [join(folder, '..'), folder.split('/').at(-1)!];
  return readdirSync(parent).some((n) => n.startsWith(`.${name}.old-`) && contentOf(join(parent, n)) === content);
}

import { randomBytes } from 'node:crypto';
import { link, readdir, rename, rm, writeFile } from 'node:fs/promises';
import { hostname } from 'node:os';
import { basename, dirname, join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { LARGEST_LOCK } from '../params/limits.js';
import { CommandError, EXIT } from './exit-code.js';
import { readTextFile } from './read-file.js';

/** How long a build waits for another that is writing the same folder, ms: writing takes a second or two. */
const PATIENCE = 60_000;
const LOOK_AGAIN = 50;

/** Who writes a folder now. */
interface Owner {
  readonly pid: number;
  readonly host: string;
}

/**
 * Runs `work` while no other run of this program, on this machine or another, holds the lock file. A lock whose process is gone is
 * taken over. Throws CommandError when somebody else keeps it for longer than `patience` ms, and whatever `work` throws.
 */
export async function withLock<T>(path: string, work: () => Promise<T>, patience: number = PATIENCE): Promise<T> {
  await take(path, Date.now() + patience);
  try {
    await sweep(path);
    return await work();
  } finally {
    await rm(path, { force: true });
  }
}

async function take(path: string, until: number): Promise<void> {
  while (!(await taken(path))) {
    const owner = await ownerOf(path);
    if (owner && isGone(owner)) await putAside(path, owner);
    else if (Date.now() > until) throw refusal(path, owner);
    else await pause(LOOK_AGAIN);
  }
}

/** A name beside the lock that tells whose it is, so that what a killed run leaves can be swept. */
const asideOf = (path: string): string => `${path}-${process.pid}-${randomBytes(6).toString('hex')}`;

/** The lock appears with its owner in it or not at all: a run killed half-way leaves none that nobody can read. */
async function taken(path: string): Promise<boolean> {
  const aside = asideOf(path);
  const me: Owner = { pid: process.pid, host: hostname() };
  await writeFile(aside, JSON.stringify(me), { flag: 'wx' });
  try {
    await link(aside, path);
    return true;
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'EEXIST') return false;
    if (!NO_LINKS.includes(code ?? '')) throw error;
    return takenWithoutLinks(path, me);
  } finally {
    await rm(aside, { force: true });
  }
}

/** What disks without hard links answer: memory sticks, some network shares. */
const NO_LINKS: readonly string[] = ['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS'];

const takenWithoutLinks = (path: string, me: Owner): Promise<boolean> =>
  writeFile(path, JSON.stringify(me), { flag: 'wx' }).then(
    () => true,
    (error: NodeJS.ErrnoException) => {
      if (error.code === 'EEXIST') return false;
      throw error;
    },
  );

/** Null for a file that holds something else, or that is gone by now. */
async function ownerOf(path: string): Promise<Owner | null> {
  try {
    const { pid, host } = JSON.parse(await readTextFile(path, LARGEST_LOCK, 'a lock')) as Partial<Owner>;
    return Number.isInteger(pid) && typeof host === 'string' ? { pid: pid!, host } : null;
  } catch {
    return null;
  }
}

const isGone = ({ pid, host }: Owner): boolean => host === hostname() && !lives(pid);

function lives(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== 'ESRCH';
  }
}

/** Moves a lock that was left behind away by a name of our own: of two that find it, one alone succeeds. */
async function putAside(path: string, owner: Owner): Promise<void> {
  const aside = asideOf(path);
  const moved = await rename(path, aside).then(
    () => true,
    () => false,
  );
  if (!moved) return;
  const found = await ownerOf(aside);
  // somebody was quicker and holds the lock by now: it is given back
  if (found?.pid !== owner.pid || found.host !== owner.host) await link(aside, path).catch(() => {});
  await rm(aside, { force: true });
}

/** Removes what killed runs left beside the lock. */
async function sweep(path: string): Promise<void> {
  for (const name of await readdir(dirname(path))) {
    const rest = name.startsWith(`${basename(path)}-`) && name.slice(basename(path).length + 1);
    const pid = rest && /^(\d+)-[0-9a-f]{12}$/.exec(rest)?.[1];
    if (pid && !lives(Number(pid))) await rm(join(dirname(path), name), { force: true });
  }
}

const refusal = (path: string, owner: Owner | null): CommandError =>
  new CommandError(
    EXIT.wrongInput,
    `another build${owner ? ` (process ${owner.pid} on ${owner.host})` : ''} is writing there; wait for it, or if none runs, remove ${path}`,
  );

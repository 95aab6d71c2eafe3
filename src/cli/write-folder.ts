import { randomBytes } from 'node:crypto';
import { renameSync } from 'node:fs';
import { cp, lstat, mkdir, readdir, rename, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import type { OutputFile } from '../export/output-file.js';
import { LARGEST_SUMMARY } from '../params/limits.js';
import { CommandError, EXIT } from './exit-code.js';
import { withLock } from './folder-lock.js';
import { readTextFile, reasonOf } from './read-file.js';

/** The file that says what an earlier run wrote, and how its schema begins. */
export interface Ledger {
  readonly file: string;
  readonly schema: string;
}

/** Of a build. */
const BUILD_LEDGER: Ledger = { file: 'summary.json', schema: 'evenrun-summary-' };

/** Of a tuning. */
export const TUNING_LEDGER: Ledger = { file: 'tuning.json', schema: 'evenrun-tuning-' };

/**
 * Writes the files as one folder, whole or not at all: into a temporary folder beside it that takes its place at the end.
 * Files of an earlier build are replaced; other files found there are kept. A folder that holds files but no summary of an
 * earlier build is refused. Of two builds at once one waits for the other. Killed at any moment, the earlier folder or the new one
 * stands whole: under its own name, or, killed between the two renames, under a hidden name beside it from which the next build puts
 * it back. Throws CommandError.
 */
export async function writeFolder(
  folder: string,
  files: readonly OutputFile[],
  ledger: Ledger = BUILD_LEDGER,
): Promise<void> {
  const target = resolve(folder);
  try {
    await earlierBuild(target, ledger);
    await mkdir(dirname(target), { recursive: true });
    await withLock(beside(target, 'lock'), () => replace(target, files, ledger));
  } catch (error) {
    if (error instanceof CommandError) throw error;
    throw refusal(`cannot write ${folder}: ${reasonOf(error as NodeJS.ErrnoException)}`);
  }
}

const beside = (target: string, what: string): string => join(dirname(target), `.${basename(target)}.${what}`);

async function replace(target: string, files: readonly OutputFile[], ledger: Ledger): Promise<void> {
  await putRight(target);
  const mark = randomBytes(6).toString('hex');
  const fresh = beside(target, `new-${mark}`);
  const old = beside(target, `old-${mark}`);
  try {
    const earlier = await earlierBuild(target, ledger);
    await mkdir(fresh);
    if (earlier) await keepOthers(target, fresh, earlier);
    for (const file of files) {
      const path = join(fresh, ...file.path.split('/'));
      await mkdir(dirname(path), { recursive: true });
      await writeFile(path, file.bytes);
    }
    swap(target, fresh, earlier ? old : null);
  } catch (error) {
    await rm(fresh, { recursive: true, force: true }).catch(() => {});
    throw error;
  }
  await rm(old, { recursive: true, force: true });
}

/** Puts the fresh folder where the old one was, without a pause in which something else could run. */
function swap(target: string, fresh: string, old: string | null): void {
  if (old !== null) renameSync(target, old);
  try {
    renameSync(fresh, target);
  } catch (error) {
    if (old !== null) renameSync(old, target);
    throw error;
  }
}

/** Undoes what a killed build left beside the folder: the earlier folder comes back where none stands, the rest is removed. */
async function putRight(target: string): Promise<void> {
  const names = await readdir(dirname(target));
  const left = (what: string): string[] =>
    names.filter((n) => {
      const start = `.${basename(target)}.${what}-`;
      return n.startsWith(start) && /^[0-9a-f]{12}$/.test(n.slice(start.length));
    });
  const place = (name: string): string => join(dirname(target), name);
  const [old, ...older] = left('old');
  if (old !== undefined && (await lstat(target).catch(() => null)) === null) await rename(place(old), target);
  else if (old !== undefined) older.push(old);
  for (const name of [...left('new'), ...older]) await rm(place(name), { recursive: true, force: true });
}

/** Throws CommandError when the folder cannot take a build: asked before the work begins. */
export async function checkFolder(folder: string, ledger: Ledger = BUILD_LEDGER): Promise<void> {
  await earlierBuild(resolve(folder), ledger);
}

/** Paths of the files of an earlier build in a folder; null when there is no such folder, none for an empty one. */
async function earlierBuild(target: string, ledger: Ledger): Promise<ReadonlySet<string> | null> {
  const found = await lstat(target).catch((error: NodeJS.ErrnoException) => {
    if (error.code !== 'ENOENT') throw refusal(`cannot write ${target}: ${reasonOf(error)}`);
    return null;
  });
  if (!found) return null;
  if (!found.isDirectory()) throw refusal(`${target} exists and is not a folder`);
  if ((await readdir(target)).length === 0) return new Set();
  const text = await readTextFile(join(target, ledger.file), LARGEST_SUMMARY, 'a summary').catch(() => '');
  const paths = pathsInSummary(text, ledger);
  if (!paths) {
    throw refusal(`${target} holds files that are not of an earlier build; give another --out, or an empty folder`);
  }
  return paths;
}

const refusal = (message: string): CommandError => new CommandError(EXIT.wrongInput, message);

function pathsInSummary(text: string, ledger: Ledger): ReadonlySet<string> | null {
  try {
    const summary: unknown = JSON.parse(text);
    if (typeof summary !== 'object' || summary === null || !('schema' in summary) || !('files' in summary)) return null;
    if (!String(summary.schema).startsWith(ledger.schema) || !Array.isArray(summary.files)) return null;
    return new Set([ledger.file, ...summary.files.map((f: { path?: unknown }) => String(f?.path))]);
  } catch {
    return null;
  }
}

/** Copies what an earlier build did not write. */
async function keepOthers(from: string, to: string, ours: ReadonlySet<string>): Promise<void> {
  const walk = async (at: string): Promise<void> => {
    for (const entry of await readdir(join(from, at), { withFileTypes: true })) {
      const path = at === '' ? entry.name : `${at}/${entry.name}`;
      if (ours.has(path)) continue;
      if (entry.isDirectory()) await walk(path);
      else await cp(join(from, path), join(to, path), { verbatimSymlinks: true });
    }
  };
  await walk('');
}

import { randomBytes } from 'node:crypto';
import { lstat, mkdir, rename, rm, writeFile } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import { LARGEST_PAGE } from '../params/limits.js';
import { CommandError, EXIT } from './exit-code.js';
import { readTextFile, reasonOf } from './read-file.js';

/** What stands in the head of every page of ours. */
const OURS = '<meta name="generator" content="evenrun">';

/** Throws CommandError when a page cannot be written there: a page of ours is replaced, anything else is left alone. */
export async function checkPage(path: string): Promise<void> {
  const found = await lstat(path).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOTDIR') throw refusal(`cannot write ${path}: ${reasonOf(error)}`);
    return null;
  });
  if (found === null) return;
  if (!found.isFile()) throw refusal(`${path} exists and is not a file`);
  const text = await readTextFile(path, LARGEST_PAGE, 'a page of evenrun');
  if (!text.includes(OURS)) throw refusal(`${path} exists and is no page of evenrun; give another --out`);
}

/** Writes a page whole or not at all: beside its place first, then into it. Throws CommandError. */
export async function writePage(path: string, text: string): Promise<void> {
  const target = resolve(path);
  const fresh = join(dirname(target), `.${basename(target)}.new-${randomBytes(6).toString('hex')}`);
  try {
    await mkdir(dirname(target), { recursive: true });
    await writeFile(fresh, text);
    await rename(fresh, target);
  } catch (error) {
    await rm(fresh, { force: true }).catch(() => {});
    throw refusal(`cannot write ${path}: ${reasonOf(error as NodeJS.ErrnoException)}`);
  }
}

const refusal = (message: string): CommandError => new CommandError(EXIT.wrongInput, message);

import { readFile, stat } from 'node:fs/promises';
import { CommandError, EXIT } from './exit-code.js';

/** Largest plan file or as-built file read, bytes. */
const MOST_BYTES = 1_000_000;

/** The text of a plan file. Throws CommandError for a missing, oversized or non-UTF-8 file. */
export const readPlanFile = (path: string): Promise<string> => readTextFile(path, MOST_BYTES, 'plan');

/** The text of an as-built file. Throws CommandError like `readPlanFile`. */
export const readAsBuiltFile = (path: string): Promise<string> =>
  readTextFile(path, MOST_BYTES, 'file of measurements');

/** The text of a file of at most so many bytes. Throws CommandError for a missing, oversized or non-UTF-8 file. */
export async function readTextFile(path: string, most: number, what: string): Promise<string> {
  const size = await stat(path).then(
    (s) => (s.isFile() ? s.size : wrong(`${path} is not a file`)),
    (error: NodeJS.ErrnoException) => wrong(`cannot read ${path}: ${reasonOf(error)}`),
  );
  if (size > most) wrong(`${path} has ${size} bytes; a ${what} has at most ${most}`);
  const bytes = await readFile(path).catch((error: NodeJS.ErrnoException) =>
    wrong(`cannot read ${path}: ${reasonOf(error)}`),
  );
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return wrong(`${path} is not UTF-8 text`);
  }
}

function wrong(message: string): never {
  throw new CommandError(EXIT.wrongInput, message);
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'no such file or folder',
  EACCES: 'permission denied',
  EPERM: 'not permitted',
  EISDIR: 'it is a folder',
  ENOTDIR: 'a part of the path is not a folder',
  EEXIST: 'it exists already',
  ENOSPC: 'no space left on the disk',
  EFBIG: 'no file may become so large here',
  EDQUOT: 'the disk quota is used up',
  EMFILE: 'too many files are open',
  ELOOP: 'its links lead in a circle',
  EROFS: 'the disk is read-only',
  ENAMETOOLONG: 'the name is too long',
};

/** A file error in words. */
export const reasonOf = (error: NodeJS.ErrnoException): string => REASONS[error.code ?? ''] ?? error.message;

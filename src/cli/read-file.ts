import { readFile, stat } from 'node:fs/promises';
import { LARGEST_PLAN_FILE } from '../params/limits.js';
import { CommandError, EXIT } from './exit-code.js';

/** The text of a plan file. Throws CommandError for a missing, oversized or non-UTF-8 file. */
export const readPlanFile = (path: string): Promise<string> => readTextFile(path, LARGEST_PLAN_FILE, 'a plan');

/**
 * The text of a file of at most so many bytes. What the system says is empty is not opened: some files of its own look so, and never
 * end. Throws CommandError for a missing, oversized or non-UTF-8 file and for what is no file, before anything of it is read.
 */
export async function readTextFile(path: string, most: number, what: string): Promise<string> {
  const size = await stat(path).then(
    (s) => (s.isFile() ? s.size : wrong(`${path} is not a file`)),
    (error: NodeJS.ErrnoException) => wrong(`cannot read ${path}: ${reasonOf(error)}`),
  );
  if (size > most) wrong(`${path} has ${size} bytes; ${what} has at most ${most}`);
  if (size === 0) return '';
  const bytes = await readFile(path).catch((error: NodeJS.ErrnoException) =>
    wrong(`cannot read ${path}: ${reasonOf(error)}`),
  );
  if (inSixteenBits(bytes)) wrong(`${path} is not UTF-8 text but UTF-16; save it as UTF-8`);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return wrong(`${path} is not UTF-8 text; save it as UTF-8`);
  }
}

/** True for UTF-16 with its mark, and for plain letters in it without: every second byte is zero. */
function inSixteenBits(bytes: Uint8Array): boolean {
  const [a, b] = bytes;
  if ((a === 0xff && b === 0xfe) || (a === 0xfe && b === 0xff)) return true;
  const start = [...bytes.subarray(0, 64)];
  const zeros = (odd: number): boolean => start.every((byte, i) => i % 2 !== odd || byte === 0);
  return start.length >= 2 && zeros(0) !== zeros(1);
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
  EBUSY: 'it is in use: a disk is mounted there, or a program holds it',
  EXDEV: 'it lies on another disk than its folder',
  ENAMETOOLONG: 'the name is too long',
};

/** A file error in words. */
export const reasonOf = (error: NodeJS.ErrnoException): string => REASONS[error.code ?? ''] ?? error.message;

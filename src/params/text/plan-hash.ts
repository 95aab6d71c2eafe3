import { createHash } from 'node:crypto';
import type { ReadFile } from '../scans.js';

const sha256 = (data: string | Uint8Array): string => createHash('sha256').update(data).digest('hex');

/** A reader that remembers what it read, by path as the plan has it. */
export interface RememberingReader {
  readonly readFile: ReadFile | undefined;
  readonly files: ReadonlyMap<string, Uint8Array>;
}

/** The same reader with a memory. */
export function rememberingReader(readFile: ReadFile | undefined): RememberingReader {
  const files = new Map<string, Uint8Array>();
  if (readFile === undefined) return { readFile, files };
  const remember: ReadFile = (path, most) => {
    const bytes = readFile(path, most);
    files.set(path, bytes);
    return bytes;
  };
  return { readFile: remember, files };
}

/**
 * SHA-256 (FIPS 180-4) of a plan, 64 hex digits: that of its text in UTF-8; where it names files, that of its text followed by the
 * SHA-256 of each in hex, in the order of their paths. Papers carry the first 12 digits.
 */
export function planHash(text: string, files: ReadonlyMap<string, Uint8Array>): string {
  const sums = [...files].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, bytes]) => sha256(bytes));
  return sha256([text, ...sums].join(''));
}

/** A plan's hash as papers carry it: its first 12 digits. */
export const shortHash = (hash: string): string => hash.slice(0, 12);

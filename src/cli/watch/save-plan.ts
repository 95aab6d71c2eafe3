import { createHash, randomBytes } from 'node:crypto';
import { open, readFile, realpath, rename, rm, stat } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { reasonOf } from '../read-file.js';

export type Saved =
  | { readonly ok: true; readonly backup: string }
  | { readonly ok: false; readonly conflict: boolean; readonly words: string };

/** SHA-256 of a text or of bytes, hex. */
export const textHash = (data: string | Uint8Array): string => createHash('sha256').update(data).digest('hex');

/**
 * Writes a plan over its earlier version, whole or not at all: into a file beside it that is renamed into place. What it held before is
 * kept as `PLAN.bak`. Refused when the file no longer has the text of `base` (its SHA-256): then somebody else has written it. Never throws.
 */
export async function savePlan(path: string, base: string, text: string): Promise<Saved> {
  const mark = randomBytes(6).toString('hex');
  try {
    const target = await realpath(path);
    const beside = (name: string): string => join(dirname(target), name);
    const fresh = beside(`.${basename(target)}.new-${mark}`);
    const kept = beside(`.${basename(target)}.bak-${mark}`);
    try {
      const { mode } = await stat(target);
      const earlier = await readFile(target);
      if (textHash(earlier) !== base) return changed(path);
      await writeWhole(fresh, text, mode);
      await writeWhole(kept, earlier, mode);
      if (textHash(await readFile(target)) !== base) return changed(path);
      await rename(kept, `${target}.bak`);
      await rename(fresh, target);
      return { ok: true, backup: `${basename(target)}.bak` };
    } finally {
      await rm(fresh, { force: true });
      await rm(kept, { force: true });
    }
  } catch (error) {
    const words = `cannot write ${path}: ${reasonOf(error as NodeJS.ErrnoException)}; nothing was written`;
    return { ok: false, conflict: false, words };
  }
}

const changed = (path: string): Saved => ({
  ok: false,
  conflict: true,
  words: `${path} was changed meanwhile; nothing was written. The page now shows the new file: make the changes again`,
});

/** On the disk before it takes anybody's place. */
async function writeWhole(path: string, data: string | Uint8Array, mode: number): Promise<void> {
  const file = await open(path, 'wx', mode);
  try {
    await file.writeFile(data);
    await file.sync();
  } finally {
    await file.close();
  }
}

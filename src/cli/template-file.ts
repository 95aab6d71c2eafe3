import { readFile } from 'node:fs/promises';

/** The text of a starter plan that comes with the program. */
export const templateText = (name: string): Promise<string> =>
  readFile(new URL(`../../templates/${name}.yaml`, import.meta.url), 'utf8');

/** The bytes of a file that a starter plan names. */
export const templateCompanion = (file: string): Promise<Uint8Array> =>
  readFile(new URL(`../../templates/${file}`, import.meta.url));

import { readFile } from 'node:fs/promises';

/** The text of a starter plan that comes with the program. */
export const templateText = (name: string): Promise<string> =>
  readFile(new URL(`../../templates/${name}.yaml`, import.meta.url), 'utf8');

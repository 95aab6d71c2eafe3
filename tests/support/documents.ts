import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

export const ROOT = fileURLToPath(new URL('../../', import.meta.url));

/** What is written for people who use the program: file name and text. */
export const DOCUMENTS: readonly (readonly [name: string, text: string])[] = [
  'README.md',
  ...readdirSync(join(ROOT, 'src/guides')).map((f) => `src/guides/${f}`),
].map((f) => [f, readFileSync(join(ROOT, f), 'utf8')]);

/** What a text sets between backticks within its lines, blocks of code left out. */
export const codeSpans = (text: string): string[] =>
  [...text.replaceAll(/^```[\s\S]*?^```$/gm, '').matchAll(/`([^`\n]+)`/g)].map(([, span]) => span!);

import { readFile } from 'node:fs/promises';

/** The browser's script of the build book, as it was bundled beside the command. */
export const bookScript = (): Promise<string> => readFile(new URL('../page/book.js', import.meta.url), 'utf8');

import { fileURLToPath } from 'node:url';
import { type Ran, run } from './run.js';

const MAIN = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

/** Runs the built command in a folder. */
export const evenrun = (args: readonly string[], cwd: string): Ran => run(process.execPath, [MAIN, ...args], cwd);

/** The text of a starter plan. */
export const TEMPLATE_FOLDER = fileURLToPath(new URL('../../templates/', import.meta.url));

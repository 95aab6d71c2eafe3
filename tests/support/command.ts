import { spawnSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';

const MAIN = fileURLToPath(new URL('../../dist/cli/main.js', import.meta.url));

export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs the built command in a folder. */
export function evenrun(args: readonly string[], cwd: string): Ran {
  const ran = spawnSync(process.execPath, [MAIN, ...args], {
    cwd,
    encoding: 'utf8',
    env: { ...process.env, NO_COLOR: '1' },
  });
  return { code: ran.status, out: ran.stdout, err: ran.stderr };
}

/** The text of a starter plan. */
export const TEMPLATE_FOLDER = fileURLToPath(new URL('../../templates/', import.meta.url));

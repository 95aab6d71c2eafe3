import { spawnSync } from 'node:child_process';

/** How a program ended and what it printed. */
export interface Ran {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

/** Runs a program in a folder. */
export function run(program: string, args: readonly string[], cwd: string): Ran {
  const env = { ...process.env, NO_COLOR: '1' };
  const ran = spawnSync(program, args, { cwd, encoding: 'utf8', env });
  return { code: ran.status, out: ran.stdout, err: ran.stderr };
}

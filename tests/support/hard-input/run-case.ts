import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { watchedRun } from '../load/watched-run.js';
import type { HardCase } from './case.js';

/** Longest any answer may take, s, and most memory, MB. */
export const LONGEST = 30;
export const MOST_MEMORY = 400;

/** What came of a hard input. */
export interface HardOutcome {
  readonly exit: number | null;
  /** The line that answers. */
  readonly said: string;
  readonly seconds: number;
  readonly peak: number | null;
  /** What is not as it must be; empty when all is. */
  readonly faults: readonly string[];
}

/** Gives a hard input to the program in a folder of its own and looks at the answer, at what was written, at time and memory. */
export async function runHardCase({ prepare, exit, words }: HardCase): Promise<HardOutcome> {
  const cwd = mkdtempSync(join(tmpdir(), 'evenrun-hard-'));
  try {
    const args = prepare(cwd);
    const before = listOf(cwd);
    const ran = await watchedRun([join(process.cwd(), 'dist/cli/main.js'), ...args], { cwd, longest: LONGEST });
    const answer = exit === 0 ? ran.out : ran.err;
    const faults: string[] = [];
    if (ran.code !== exit) faults.push(`exit ${ran.code}, not ${exit}`);
    if (!words.test(answer)) faults.push(`it does not say ${words}`);
    if (/fault of its own|\n\s+at .*\(/.test(ran.out + ran.err)) faults.push('it shows a fault of the program');
    if (listOf(cwd) !== before) faults.push('something was written');
    if ((ran.peak ?? 0) > MOST_MEMORY) faults.push(`it took ${ran.peak!.toFixed(0)} MB`);
    return { exit: ran.code, said: lineOf(answer, words), seconds: ran.seconds, peak: ran.peak, faults };
  } finally {
    rmSync(cwd, { recursive: true, force: true });
  }
}

/** Every name below a folder; links are not followed. */
function listOf(folder: string): string {
  const names = (at: string): string[] =>
    readdirSync(at, { withFileTypes: true }).flatMap((e) =>
      e.isDirectory() ? [e.name, ...names(join(at, e.name))] : [e.name],
    );
  return names(folder).sort().join('\n');
}

/** The first line that has the words, else the first of all, with what is not plain ASCII left out. */
function lineOf(answer: string, words: RegExp): string {
  const lines = answer.split('\n').filter((l) => l.trim() !== '');
  return (lines.find((l) => words.test(l)) ?? lines[0] ?? '').trim().replace(/[^ -~]/g, '?');
}

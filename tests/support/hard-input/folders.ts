import { execFileSync } from 'node:child_process';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { HardCase } from './case.js';
import { SINGLE } from './single.js';

const into = (what: string, out: string, words: RegExp, make: (at: string) => void): HardCase => ({
  what,
  exit: 2,
  words,
  prepare: (at) => {
    writeFileSync(join(at, 'plan.yaml'), SINGLE);
    make(at);
    return ['build', 'plan.yaml', '--out', out];
  },
});

/** Where a build is asked to go. */
export const FOLDERS: readonly HardCase[] = [
  into('out is a link to a folder elsewhere', 'out', /exists and is not a folder/, (at) => {
    mkdirSync(join(at, 'elsewhere'));
    symlinkSync('elsewhere', join(at, 'out'));
  }),
  into('out is a link to nowhere', 'out', /exists and is not a folder/, (at) =>
    symlinkSync('nowhere', join(at, 'out')),
  ),
  into('out is a link to /', 'out', /exists and is not a folder/, (at) => symlinkSync('/', join(at, 'out'))),
  into('out is /', '/', /not of an earlier build/, () => {}),
  into('out is the folder of the plan', '.', /not of an earlier build/, () => {}),
  into('out is the plan', 'plan.yaml', /exists and is not a folder/, () => {}),
  into('out lies below a file', 'plan.yaml/out', /not a folder/, () => {}),
  into('out is a pipe', 'out', /exists and is not a folder/, (at) => void execFileSync('mkfifo', [join(at, 'out')])),
  into('out holds a pipe in place of its summary', 'out', /not of an earlier build/, (at) => {
    mkdirSync(join(at, 'out'));
    execFileSync('mkfifo', [join(at, 'out/summary.json')]);
  }),
  into('out holds a link to /dev/zero in place of its summary', 'out', /not of an earlier build/, (at) => {
    mkdirSync(join(at, 'out'));
    symlinkSync('/dev/zero', join(at, 'out/summary.json'));
  }),
  into('out holds a summary that is none', 'out', /not of an earlier build/, (at) => {
    mkdirSync(join(at, 'out'));
    writeFileSync(join(at, 'out/summary.json'), '{ "schema": "evenrun-summary-", "files": "all" }');
  }),
  into('out has a name of 300 letters', 'o'.repeat(300), /name is too long/, () => {}),
  {
    what: 'a batch of a plan named ...yaml',
    exit: 2,
    words: /gives its folder no name/,
    prepare: (at) => {
      writeFileSync(join(at, '...yaml'), SINGLE);
      writeFileSync(join(at, 'b.yaml'), SINGLE);
      return ['build', '...yaml', 'b.yaml', '--out', 'below/out'];
    },
  },
];

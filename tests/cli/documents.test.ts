import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { evenrun } from '../support/command.js';
import { codeSpans, DOCUMENTS, ROOT } from '../support/documents.js';
import { planFields } from '../support/plan-fields.js';

const { paths, words } = planFields();
const LAST = new Set([...paths].map((p) => p.split('.').at(-1)!));
const PACKAGE = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
const LIBRARY = readFileSync(join(ROOT, 'src/index.ts'), 'utf8');
const HELP = [...evenrun(['--help'], '.').out.matchAll(/^ {2}evenrun (\w+)/gm)]
  .map(([, command]) => evenrun([command!, '--help'], '.').out)
  .join('\n');

const EXAMPLES = join(ROOT, 'output-examples');
const BUILT = readdirSync(EXAMPLES, { recursive: true, encoding: 'utf8' });
const COLUMNS = new Set(
  BUILT.filter((f) => f.endsWith('.csv')).flatMap((f) =>
    readFileSync(join(EXAMPLES, f), 'utf8').split('\r\n')[0]!.split(','),
  ),
);
const IDS = new Set(
  readdirSync(join(ROOT, 'src/checks')).flatMap((f) =>
    [...readFileSync(join(ROOT, 'src/checks', f), 'utf8').matchAll(/'([a-z]+(?:-[a-z]+)*\.[a-z]+(?:-[a-z]+)*)'/g)].map(
      (m) => m[1]!,
    ),
  ),
);
/** Files of a build that the examples leave out: their sums are kept, or the starters do not ask for them. */
const UNKEPT = [
  'book.html',
  'header.stl',
  'sheet.dxf',
  'sheet.svg',
  'alternatives.csv',
  'alternatives/',
  'secondary-bend-table.csv',
  'jigs/',
];
const UNKEPT_IN = /^(jigs|print|plates|patterns|tuning|collector|alternatives)\/[\w*./-]*$/;
/** What a reader calls their own files. */
const THEIRS = /^(my-[\w-]+|low|high|both|tubes|plan\.schema|sweep|single)(\.\w+(\.bak)?)?$/;
/** Programs and packages of others. */
const OTHERS = new Set([
  'ezdxf',
  'admesh',
  'prusa-slicer',
  'rsvg-convert',
  'pdftoppm',
  'chromium',
  '@jscad/modeling',
  'evenrun',
]);
/** What stands beside a folder while it is written; what a plan or a name may hold that is refused. */
const BESIDE_OR_REFUSED = new Set([
  '.NAME.old-',
  '.NAME.new-...',
  '.NAME.lock',
  '*name',
  '__proto__',
  'constructor',
  '...yaml',
]);
/** Levels of a finding, an error of the language, a line of CSV. */
const PLAIN = new Set(['ok', 'warn', 'fail', 'RangeError', 'x,y', '-- 5000 7']);

/** True for the fields of a piece of a plan: `weld: { gap, shrinkage }`, `jig.strut: auto`. */
function isPiece(span: string): boolean {
  const walk = (value: unknown, at: readonly string[]): boolean =>
    value === null || typeof value !== 'object'
      ? true
      : Object.entries(value).every(
          ([key, inner]) => paths.has([...at, key].join('.')) && walk(inner, [...at, ...key.split('.')]),
        );
  try {
    const value = parse(span);
    return typeof value === 'object' && walk(value, []);
  } catch {
    return false;
  }
}

const isFile = (span: string): boolean =>
  existsSync(join(ROOT, span)) ||
  UNKEPT.includes(span) ||
  UNKEPT_IN.test(span) ||
  BUILT.some((f) => new RegExp(`(^|/)${span.replaceAll('.', '\\.').replaceAll('*', '.*')}$`).test(f)) ||
  THEIRS.test(span);

const known = (span: string): boolean =>
  /^evenrun( |$)/.test(span) ||
  (span.startsWith('--') && HELP.includes(span.split(/[ =]/)[0]!)) ||
  (span.startsWith('npm run ') && span.split(' ')[2]! in PACKAGE.scripts) ||
  paths.has(span.replace(/=.*/, '')) ||
  /^"[\d.]+ (mm|in)"$/.test(span) ||
  span.startsWith('dist/') ||
  LAST.has(span) ||
  words.has(span) ||
  COLUMNS.has(span) ||
  IDS.has(span) ||
  DOCUMENTS.some(([name]) => name.endsWith(`/${span}.md`)) ||
  new RegExp(`\\b${span.replaceAll(/[^\w]/g, '')}\\b`).test(LIBRARY) ||
  OTHERS.has(span) ||
  PLAIN.has(span) ||
  BESIDE_OR_REFUSED.has(span) ||
  isFile(span) ||
  isPiece(span);

describe('what is written for users', () => {
  test.each(DOCUMENTS)('%s names only fields, values, options, files and columns there are', (_, text) => {
    expect(codeSpans(text).filter((span) => !known(span))).toEqual([]);
  });

  test.each(DOCUMENTS)('%s links only to files there are', (name, text) => {
    const links = [...text.matchAll(/\]\(([^)#]+)\)/g)].map((m) => m[1]!);
    expect(links.filter((link) => !existsSync(join(ROOT, name, '..', link)))).toEqual([]);
  });

  test('tells of every check, and of no other', () => {
    const guide = DOCUMENTS.find(([name]) => name.endsWith('findings.md'))![1];
    const rows = guide.split('\n').filter((l) => l.startsWith('| `'));
    const told = rows.flatMap((l) => codeSpans(l.split(' | ')[0]!));
    expect([...told].sort()).toEqual([...IDS].sort());
    for (const row of rows) expect(row.split(' | ')).toHaveLength(4);
  });

  test('tells of every file of a build', () => {
    const guide = DOCUMENTS.find(([name]) => name.endsWith('files-of-a-build.md'))![1];
    const told = codeSpans(guide).map((s) => new RegExp(`^[\\w-]+/${s.replaceAll('.', '\\.').replaceAll('*', '.*')}$`));
    const files = BUILT.filter((f) => /\/.*\./.test(f) && !/SHA256SUMS/.test(f)).map((f) => f.replaceAll('\\', '/'));
    expect(files.filter((f) => !told.some((t) => t.test(f)))).toEqual([]);
  });
});

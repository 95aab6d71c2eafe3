import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import type { HardCase } from './case.js';
import { SINGLE } from './single.js';

/** A plan of this text, built. */
const plan = (what: string, text: string | Uint8Array, exit: number, words: RegExp): HardCase => ({
  what,
  exit,
  words,
  prepare: (folder) => {
    writeFileSync(join(folder, 'plan.yaml'), text);
    return exit === 0 ? ['check', 'plan.yaml'] : ['build', 'plan.yaml', '--out', 'out'];
  },
});

const changed = (part: string, by: string): string => {
  if (!SINGLE.includes(part)) throw new Error(`the single has no ${part}`);
  return SINGLE.replace(part, by);
};

/** Nine lists, each of nine of the list before: nine to the ninth in full. */
const LAUGHS = `${Array.from('abcdefghi', (name, i) => {
  const item = i === 0 ? 'ha' : `*${'abcdefghi'[i - 1]}`;
  return `${name}: &${name} [${Array(9).fill(item).join(', ')}]`;
}).join('\n')}\n`;

const KEEP_OUT = '{ name: k, kind: half_space, point: [0, 0, 0], normal: [1, 0, 0] }';
const keepOuts = (count: number, one: string): string =>
  `${SINGLE.slice(0, SINGLE.indexOf('keep_out:'))}keep_out: [${Array(count).fill(one).join(', ')}]\n`;

const ports = (count: number): string => {
  const list = Array.from({ length: count }, (_, i) => `{ cylinder: ${i + 1}, at: [0, 0], shape: *p }`).join(', ');
  const from = SINGLE.indexOf('  ports:');
  const to = SINGLE.indexOf('  bolts:');
  return `x: &p { kind: round, diameter: 40 }\n${SINGLE.slice(0, from)}  ports: [${list}]\n${SINGLE.slice(to)}`;
};

const utf16 = (mark: boolean): Buffer => Buffer.from(`${mark ? '\uFEFF' : ''}${SINGLE}`, 'utf16le');

/** Bytes of no kind, the same in every run (Park and Miller's generator). */
const rubbish = (count: number): Uint8Array => {
  let seed = 1;
  return Uint8Array.from({ length: count }, () => {
    seed = (seed * 48_271) % 2_147_483_647;
    return seed & 0xff;
  });
};

const HERE = /plan\.yaml:\d+:\d+/;

export const PLAN_TEXTS: readonly HardCase[] = [
  plan('an alias bomb: nine lists, each nine times in the next', `${SINGLE}${LAUGHS}`, 2, /at most 50 aliases/),
  plan('100,000 opening brackets', `${SINGLE}x: ${'['.repeat(100_000)}`, 2, /nested deeper/),
  plan('100,000 dashes on one line', `${SINGLE}x:\n ${'- '.repeat(100_000)}1\n`, 2, /nested deeper/),
  plan(
    'sections in sections, 400 deep',
    Array.from({ length: 400 }, (_, i) => `${' '.repeat(i)}a:\n`).join(''),
    2,
    /nested deeper/,
  ),
  plan('a field named __proto__', `${SINGLE}__proto__: { passed: true }\n`, 2, /cannot have a field named "__proto__"/),
  plan(
    '__proto__ in a plan that is JSON',
    '{ "evenrun": 1, "__proto__": { "name": "x" } }',
    2,
    /field named "__proto__"/,
  ),
  plan(
    'fields named constructor and prototype',
    `${SINGLE}constructor: { prototype: 1 }\n`,
    2,
    /field named "constructor"/,
  ),
  plan('a field given twice', `${SINGLE}name: another\n`, 2, /"name" is given twice/),
  plan('a merge key (<<)', `${SINGLE}<<: { name: x }\n`, 2, /field named "<<"/),
  plan('a tag that asks for code', `${SINGLE}x: !!js/function "() => 1"\n`, 2, /no tags/),
  plan('two plans in one file', `${SINGLE}---\n${SINGLE}`, 2, /second document/),
  plan('a length of 1e9 mm', changed('length: 720', 'length: 1e9'), 2, /runners\.length.*10000 mm, found 1000000000/),
  plan(
    'a length of 1e-9 mm',
    changed('length: 720', 'length: 1e-9'),
    3,
    /runners\.length: cylinder 1 needs at least about [\d.]+ mm/,
  ),
  plan('a tube of 1e-9 mm', changed('od: 44.5', 'od: 1e-9'), 2, HERE),
  plan('a length that is not a number', changed('length: 720', 'length: .nan'), 2, /runners\.length/),
  plan('a length without end', changed('length: 720', 'length: 1e400'), 2, /runners\.length/),
  plan('a number of 900,000 digits', changed('length: 720', `length: ${'7'.repeat(900_000)}`), 2, /runners\.length/),
  plan('10,000 ports', ports(10_000), 2, HERE),
  plan('10,000 cylinders', changed('cylinders: 1', 'cylinders: 10000'), 2, /engine\.cylinders.*16/),
  plan('10,000 keep-outs', keepOuts(10_000, KEEP_OUT), 2, /keep_out.*100/),
  plan('100,000 empty keep-outs', keepOuts(100_000, '{}'), 2, /keep_out/),
  plan('1,000,000 keep-outs', keepOuts(1_000_000, KEEP_OUT), 2, /has \d+ bytes; a plan has at most 1000000/),
  plan('binary rubbish', rubbish(100_000), 2, /not UTF-8/),
  plan('an empty file', '', 2, /the file is empty/),
  plan('UTF-16 with its mark', utf16(true), 2, /UTF-16; save it as UTF-8/),
  plan('UTF-16 without a mark', utf16(false), 2, /UTF-16; save it as UTF-8/),
  plan('UTF-8 with a mark', `\uFEFF${SINGLE}`, 0, /all checks hold/),
  plan('Latin-1 with an umlaut', Buffer.from(changed('name: single', 'name: Kr\u00fcmmer'), 'latin1'), 2, /not UTF-8/),
  plan('NULs in a name', changed('name: single', 'name: "a\u0000b"'), 2, HERE),
  plan('an escaped NUL in a name', changed('name: single', 'name: "a\\0b"'), 2, /name.*without control characters/),
  plan('a tail of NULs after the plan', `${SINGLE}${'\u0000'.repeat(1000)}`, 2, HERE),
  plan('line ends of an old machine (CR alone)', SINGLE.replaceAll('\n', '\r'), 2, HERE),
  plan('line ends CR LF', SINGLE.replaceAll('\n', '\r\n'), 0, /all checks hold/),
  plan(
    'a name that turns the writing round (U+202E)',
    changed('name: single', 'name: "a\u202eb"'),
    2,
    /without control/,
  ),
  plan('half of a pair of code units in a name', changed('name: single', 'name: "\\ud800"'), 2, HERE),
  plan('a name of 10,000 letters', changed('name: single', `name: ${'x'.repeat(10_000)}`), 2, /1 to 80 characters/),
];

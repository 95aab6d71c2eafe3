import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { evenrun, TEMPLATE_FOLDER } from '../support/command.js';

const folder = mkdtempSync(join(tmpdir(), 'evenrun-call-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const FOUR = readFileSync(join(TEMPLATE_FOLDER, 'inline-four.yaml'), 'utf8');
const SINGLE = readFileSync(join(TEMPLATE_FOLDER, 'single.yaml'), 'utf8');

/** Writes a plan with one part replaced; the part must be there. Gives the file's name and the line of the change. */
function planWith(name: string, text: string, part: string | RegExp, by: string): { file: string; line: number } {
  const at = typeof part === 'string' ? text.indexOf(part) : text.search(part);
  expect(at, String(part)).toBeGreaterThan(-1);
  writeFileSync(join(folder, `${name}.yaml`), text.replace(part, by));
  return { file: `${name}.yaml`, line: text.slice(0, at).split('\n').length };
}

function buildOf(file: string): { code: number | null; err: string; out: string; written: boolean } {
  const target = file.replace('.yaml', '-out');
  const ran = evenrun(['build', file, '--out', target], folder);
  const left = readdirSync(folder).filter((f) => f.startsWith('.') || f === target);
  return { ...ran, written: left.length > 0 };
}

describe('a plan that is wrong', () => {
  it.each([
    ['typo', /firing_order/, 'fireing_order', /engine/, /did you mean "?'?firing_order/i],
    ['negative', 'length: 760', 'length: -760', /runners\.length/, /-760/],
    ['inside', 'at: [160, -350, 150]', 'at: [160, -350, -150]', /collector\.at/, /head/],
  ] as const)('%s: exit 2, line and field, nothing written', (name, part, by, field, word) => {
    const { file, line } = planWith(name, FOUR, part, by);
    const ran = buildOf(file);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(field);
    expect(ran.err).toMatch(word);
    expect(ran.err).toContain(`${file}:${line}:`);
    expect(ran.written).toBe(false);
  });

  it('a missing port: exit 2, naming the cylinder that has none', () => {
    const { file } = planWith(
      'missing',
      FOUR,
      'at: [160, -350, 150]',
      'cylinders: [1, 2, 3, 5]\n  at: [160, -350, 150]',
    );
    const ran = buildOf(file);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/collector\.cylinders/);
    expect(ran.err).toMatch(/\b5\b/);
    expect(ran.written).toBe(false);
  });

  it('no ports at all: exit 2 at the head', () => {
    const { file } = planWith('portless', FOUR, / {2}ports:[\s\S]*? {2}bolts:/, '  bolts:');
    const ran = buildOf(file);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/head.*ports/);
    expect(ran.written).toBe(false);
  });

  it('with --json the problems come as one object on stdout', () => {
    const { file } = planWith('json', FOUR, 'length: 760', 'length: -760');
    const ran = evenrun(['build', file, '--out', 'json-out', '--json'], folder);
    expect(ran.code).toBe(2);
    const told = JSON.parse(ran.out) as { error: { exit: number; problems: { path: string; line: number }[] } };
    expect(told.error.exit).toBe(2);
    expect(told.error.problems[0]).toMatchObject({ path: 'runners.length' });
  });

  it('a missing, binary or huge file is refused in words', () => {
    writeFileSync(join(folder, 'binary.yaml'), Buffer.from([0xff, 0xfe, 0x00, 0x41, 0xd8]));
    writeFileSync(join(folder, 'huge.yaml'), `# ${'x'.repeat(1_100_000)}\n`);
    for (const [file, word] of [
      ['nowhere.yaml', /no such file/],
      ['binary.yaml', /UTF-8/],
      ['huge.yaml', /bytes/],
      ['.', /not a file/],
    ] as const) {
      const ran = evenrun(['check', file], folder);
      expect(ran.code, file).toBe(2);
      expect(ran.err, file).toMatch(word);
    }
  });
});

describe('a plan without a way', () => {
  it('exit 3, the limit that binds and by how much, nothing written', () => {
    const { file } = planWith('short', FOUR, 'length: 760', 'length: 300');
    const ran = buildOf(file);
    expect(ran.code).toBe(3);
    expect(ran.err).toMatch(/runners\.length: cylinder \d needs at least about [\d.]+ mm, the target is 300\.0 mm/);
    expect(ran.written).toBe(false);
  });
});

describe('routes given by hand', () => {
  it('are taken as they are, checked, and fail with exit 1 and outputs that say so', () => {
    const given = `  length: 600
  routes:
    - by: xyz
      cylinder: 1
      points: [[0, 0, 0], [0, 0, 180], [0, -300, 180], [0, -300, 60]]
      clr: 66.75
`;
    const { file } = planWith('by-hand', SINGLE, / {2}length: .*\n/, given);
    const ran = evenrun(['build', file, '--out', 'by-hand'], folder);
    expect(ran.code).toBe(1);
    const summary = JSON.parse(readFileSync(join(folder, 'by-hand/summary.json'), 'utf8'));
    expect(summary.passed).toBe(false);
    expect(
      summary.findings.some((f: { level: string; id: string }) => f.level === 'fail' && f.id === 'equal-length.target'),
    ).toBe(true);
    // 180 + 300 + 120 less four tangents of 66.75 and plus two quarter arcs
    expect(summary.primaries[0].length_mm).toBeCloseTo(600 - 4 * 66.75 + Math.PI * 66.75, 9);
  });
});

describe('check', () => {
  it('tells the outcome and writes nothing', () => {
    writeFileSync(join(folder, 'single.yaml'), SINGLE);
    const before = readdirSync(folder).sort();
    const ran = evenrun(['check', 'single.yaml'], folder);
    expect(ran.code).toBe(0);
    expect(ran.out).toMatch(/all checks hold/);
    expect(readdirSync(folder).sort()).toEqual(before);
  });
});

describe('the output folder', () => {
  it('with files of somebody else is refused and left alone', () => {
    mkdirSync(join(folder, 'foreign'));
    writeFileSync(join(folder, 'foreign/notes.txt'), 'mine');
    writeFileSync(join(folder, 'single.yaml'), SINGLE);
    const ran = evenrun(['build', 'single.yaml', '--out', 'foreign'], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/not of an earlier build/);
    expect(readdirSync(join(folder, 'foreign'))).toEqual(['notes.txt']);
  });

  it('of an earlier build is replaced, and what was added by hand is kept', () => {
    writeFileSync(join(folder, 'single.yaml'), SINGLE);
    expect(evenrun(['build', 'single.yaml', '--out', 'again'], folder).code).toBe(0);
    writeFileSync(join(folder, 'again/my-notes.txt'), 'keep me');
    writeFileSync(join(folder, 'again/jigs/my-part.txt'), 'me too');
    expect(evenrun(['build', 'single.yaml', '--out', 'again'], folder).code).toBe(0);
    expect(readFileSync(join(folder, 'again/my-notes.txt'), 'utf8')).toBe('keep me');
    expect(readFileSync(join(folder, 'again/jigs/my-part.txt'), 'utf8')).toBe('me too');
    expect(readdirSync(folder).filter((f) => f.startsWith('.again'))).toEqual([]);
  });

  it('that cannot be made is an error in words', () => {
    writeFileSync(join(folder, 'single.yaml'), SINGLE);
    writeFileSync(join(folder, 'a-file'), '');
    const ran = evenrun(['build', 'single.yaml', '--out', 'a-file/below'], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/cannot write .*a-file\/below: .*not a folder/);
  });
});

describe('the call', () => {
  it('lists templates and prints both schemas', () => {
    const templates = evenrun(['templates'], folder);
    expect(templates.code).toBe(0);
    for (const name of ['inline-four', 'inline-six-turbo', 'v-twin', 'v8-bank', 'single'])
      expect(templates.out).toContain(name);
    for (const of of ['plan', 'summary']) {
      const told = evenrun(['schema', of], folder);
      expect(told.code).toBe(0);
      expect(JSON.parse(told.out).$schema).toContain('draft-07');
    }
  });

  it('never writes a starter over an existing file', () => {
    writeFileSync(join(folder, 'taken.yaml'), 'mine');
    const ran = evenrun(['new', 'taken'], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(/exists already/);
    expect(readFileSync(join(folder, 'taken.yaml'), 'utf8')).toBe('mine');
  });

  it.each([
    [['bild', 'x.yaml'], /build/],
    [['build', 'x.yaml', '--outt', 'y'], /Did you mean --out/],
    [['build', 'x.yaml', '--job', '2'], /Did you mean --jobs\?/],
    [['build', 'x.yaml', '--resum'], /Did you mean --resume\?/],
    [['build', 'x.yaml'], /out/],
    [['new'], /new <name>/],
    [['new', 'x', '--template', 'flat-twelve'], /inline-four/],
    [[], /Name a command/],
  ] as const)('%j: exit 2 with a hint', (args, hint) => {
    const ran = evenrun(args, folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(hint);
    expect(ran.err).not.toMatch(/\n\s+at /);
    expect(existsSync(join(folder, 'x.yaml'))).toBe(false);
  });

  it('help and version exit 0', () => {
    expect(evenrun(['--help'], folder)).toMatchObject({ code: 0 });
    expect(evenrun(['--version'], folder).out.trim()).toMatch(/^\d+\.\d+\.\d+$/);
  });
});

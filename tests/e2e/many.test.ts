import { spawn, spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chmodSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { evenrun, TEMPLATE_FOLDER } from '../support/command.js';
import { contentOf } from '../support/interrupted-writes.js';
import { writePlans } from '../support/load/many-plans.js';
import { watchedRun } from '../support/load/watched-run.js';

const folder = mkdtempSync(join(tmpdir(), 'evenrun-many-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const SINGLE = readFileSync(join(TEMPLATE_FOLDER, 'single.yaml'), 'utf8');
const summaryIn = (name: string): { passed: boolean; name: string } =>
  JSON.parse(readFileSync(join(folder, 'built', name, 'summary.json'), 'utf8'));

beforeAll(() => {
  writeFileSync(join(folder, 'a.yaml'), SINGLE);
  writeFileSync(join(folder, 'b.yaml'), SINGLE.replace(/^name: .*/m, 'name: the other'));
  writeFileSync(join(folder, 'bad.yaml'), SINGLE.replace(/^ {2}length: .*/m, '  length: -3'));
});

describe('several plans', () => {
  it('are each built into a folder of their name; one that is refused stops no other', () => {
    const ran = evenrun(['build', 'bad.yaml', 'a.yaml', 'b.yaml', '--out', 'built', '--jobs', '3'], folder);
    expect(ran.code).toBe(2);
    expect(ran.out).toMatch(/3 plans: 2 all checks hold, 1 plan refused\./);
    expect(ran.err).toMatch(/bad\.yaml:\d+:\d+ runners\.length/);
    expect(summaryIn('b')).toMatchObject({ passed: true, name: 'the other' });
  });

  it('give the same bytes one at a time as side by side', () => {
    const built = (name: string): Record<string, string> => {
      const files = readdirSync(join(folder, name), { recursive: true, withFileTypes: true }).filter((e) => e.isFile());
      return Object.fromEntries(
        files.map((e) => {
          const path = join(e.parentPath, e.name);
          const sum = createHash('sha256').update(readFileSync(path)).digest('hex');
          return [path.slice(join(folder, name).length + 1), sum];
        }),
      );
    };
    expect(evenrun(['build', 'a.yaml', 'b.yaml', '--out', 'one', '--jobs', '1'], folder).code).toBe(0);
    const one = built('one');
    expect(Object.keys(one).length).toBeGreaterThan(60);
    // the folder 'built' was made three at a time
    expect(one).toEqual(built('built'));
  });

  it('with --resume what stands is kept, and what changed is built', () => {
    writeFileSync(join(folder, 'b.yaml'), SINGLE.replace(/^name: .*/m, 'name: another'));
    const ran = evenrun(['build', 'a.yaml', 'b.yaml', '--out', 'built', '--resume', '--json'], folder);
    expect(ran.code).toBe(0);
    const told = JSON.parse(ran.out) as { plans: { plan: string; kept: boolean }[] };
    expect(told.plans.map((p) => [p.plan, p.kept])).toEqual([
      ['a.yaml', true],
      ['b.yaml', false],
    ]);
    expect(summaryIn('b').name).toBe('another');
  });

  it.each([
    [['a.yaml', './a.yaml', '--out', 'x'], /two plans would be built into x\/a/],
    [['a.yaml', 'b.yaml', '--out', 'x', '--jobs', '0'], /--jobs is a whole number/],
    [['a.yaml', 'b.yaml', '--out', 'x', '--alternatives', '3'], /--alternatives goes with one plan/],
  ])('%j is refused', (args, words) => {
    const ran = evenrun(['build', ...args], folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(words);
  });
});

describe('a batch under load', () => {
  it('killed half-way and resumed holds the bytes of plans built alone', async () => {
    const cwd = join(folder, 'cut');
    mkdirSync(cwd);
    const files = writePlans(cwd, 3).map((p) => p.file);
    const args = [join(process.cwd(), 'dist/cli/main.js'), 'build', ...files, '--out', 'built', '--resume'];
    const cut = await watchedRun(args, {
      cwd,
      onLine: (kill, line) => {
        if (line.startsWith('plan-001.yaml: ')) kill();
      },
    });
    expect(cut.code).toBe(null);
    const resumed = evenrun(args.slice(1), cwd);
    expect(resumed.code).toBe(0);
    expect(resumed.out.match(/\(kept\)/g)?.length).toBeGreaterThanOrEqual(2);
    evenrun(['build', files[2]!, '--out', 'alone/plan-002'], cwd);
    expect(contentOf(join(cwd, 'alone/plan-002'))).toBe(contentOf(join(cwd, 'built/plan-002')));
    // what the killed batch had begun goes on to its end or is gone: the folder holds whole builds alone
    expect(
      readdirSync(join(cwd, 'built'))
        .filter((n) => !n.startsWith('.'))
        .sort(),
    ).toEqual(files.map((f) => f.replace('.yaml', '')));
  }, 300_000);
});

describe('a sweep', () => {
  const vary = ['--vary', 'runners.length=690:720:10', '--vary', 'tube.od=42.4,9999'];
  const parts = (n: number): string[] =>
    Array.from({ length: n }, (_, k) => {
      const ran = evenrun(['sweep', 'a.yaml', ...vary, '--shard', `${k + 1}/${n}`], folder);
      expect(ran.code).toBe(k % 2 === 0 ? 0 : 1);
      writeFileSync(join(folder, `part-${n}-${k}.jsonl`), ran.out);
      return `part-${n}-${k}.jsonl`;
    });

  it('gives a line for each design, and its parts merge to the same bytes', () => {
    const whole = evenrun(['sweep', '--merge', ...parts(1)], folder);
    expect(whole.code).toBe(0);
    const [head, ...designs] = whole.out
      .trim()
      .split('\n')
      .map((l) => JSON.parse(l));
    expect(head).toMatchObject({ schema: 'evenrun-sweep-1', designs: 8, shard: [1, 1] });
    expect(designs.map((d) => d.outcome)).toEqual(
      Array.from({ length: 8 }, (_, i) => (i % 2 === 0 ? 'passed' : 'refused')),
    );
    for (const d of designs.filter((d) => d.outcome === 'passed')) {
      expect(d.length_mm).toBe(d.values['runners.length']);
    }
    expect(evenrun(['sweep', '--merge', ...parts(2).reverse()], folder).out).toBe(whole.out);
  });

  it('varies length, bend, place of the collector and bore, a line as each design is done', async () => {
    const axes = [
      'runners.length=700,710',
      'tube.bends.0.clr=66.75,80',
      'collector.at.1=-330,-335',
      'tube.od=44.5,1.75 in',
    ];
    const main = join(process.cwd(), 'dist/cli/main.js');
    const child = spawn(process.execPath, [main, 'sweep', 'a.yaml', ...axes.flatMap((a) => ['--vary', a])], {
      cwd: folder,
    });
    const arrivals: number[] = [];
    const lines: string[] = [];
    for await (const line of createInterface({ input: child.stdout })) {
      lines.push(line);
      arrivals.push(performance.now());
    }
    const designs = lines.slice(1).map((l) => JSON.parse(l));
    expect(designs.map((d) => d.design)).toEqual(Array.from({ length: 16 }, (_, i) => i));
    for (const field of ['runners.length', 'tube.bends.0.clr', 'collector.at.1', 'tube.od']) {
      expect(new Set(designs.map((d) => d.values[field])).size, field).toBe(2);
    }
    expect(designs.every((d) => d.outcome !== 'refused')).toBe(true);
    // other values are another header: no two designs cost the same but for the bore, which is one in both units but for 0.05 mm
    expect(new Set(designs.filter((d) => d.outcome !== 'no route').map((d) => d.cost)).size).toBeGreaterThan(4);
    // they come one by one: the last long after the first
    expect(arrivals.at(-1)! - arrivals[1]!).toBeGreaterThan(50);
  });

  it('as the array job of the guide, run by a loop, merges to the bytes of the whole', () => {
    const guide = readFileSync('src/guides/many-designs.md', 'utf8');
    const [job, after] = [...guide.slice(guide.indexOf('#!/bin/sh') - 10).matchAll(/```sh\n([\s\S]*?)```/g)].map(
      (m) => m[1]!,
    );
    const parts = 3;
    // the example's 64 parts of a wide sweep of the reader's engine, here as few of a narrow one
    const script = job!
      .replaceAll('my-engine.yaml', 'a.yaml')
      .replace('/64', `/${parts}`)
      .replace(/--vary collector\.at\.0=\S+ /, '')
      .replace('runners.length=600:900:2', 'runners.length=700:720:10')
      .replace('collector.at.1=-420:-300:10', 'collector.at.1=-340:-330:10');
    expect(script).toContain('"$SLURM_ARRAY_TASK_ID/3" > "part-$SLURM_ARRAY_TASK_ID.jsonl"');
    const cwd = join(folder, 'array');
    mkdirSync(join(cwd, 'bin'), { recursive: true });
    writeFileSync(join(cwd, 'a.yaml'), SINGLE);
    writeFileSync(join(cwd, 'job.sh'), script);
    writeFileSync(
      join(cwd, 'bin/evenrun'),
      `#!/bin/sh\nexec "${process.execPath}" "${join(process.cwd(), 'dist/cli/main.js')}" "$@"\n`,
    );
    chmodSync(join(cwd, 'bin/evenrun'), 0o755);
    const env = { ...process.env, PATH: `${join(cwd, 'bin')}:${process.env.PATH}` };
    for (let task = 1; task <= parts; task++) {
      const ran = spawnSync('sh', ['job.sh'], {
        cwd,
        env: { ...env, SLURM_ARRAY_TASK_ID: String(task) },
        encoding: 'utf8',
      });
      expect(ran.status, ran.stderr).toBe(0);
    }
    expect(spawnSync('sh', ['-c', after!], { cwd, env, encoding: 'utf8' })).toMatchObject({ status: 0, stderr: '' });
    const vary = ['--vary', 'runners.length=700:720:10', '--vary', 'collector.at.1=-340:-330:10'];
    const whole = evenrun(['sweep', 'a.yaml', ...vary], cwd);
    expect(readFileSync(join(cwd, 'sweep.jsonl'), 'utf8')).toBe(whole.out);
    expect(whole.out.trim().split('\n')).toHaveLength(7);
  });

  it.each([
    [['sweep', '--merge', 'part-1-0.jsonl', '--vary', 'runners.length=700'], /no plan and no --vary/],
    [['sweep', '--merge', 'a.yaml'], /a\.yaml:1: not a line of a sweep/],
    [['sweep', '--merge', 'nowhere.jsonl'], /no such file/],
    [['sweep', '--merge', 'part-2-0.jsonl'], /4 of 8 designs are missing: 1, 3, 5, 7/],
    [['sweep', 'a.yaml', '--vary', 'runners.length=700', '--shard', '0/2'], /--shard is K\/N/],
    [['sweep', 'a.yaml', '--vary', 'runners.length=700', '--shard', 'two'], /--shard is K\/N/],
    [['sweep', 'a.yaml', '--vary', 'runners.length=700', '--effort', '0'], /--effort is a whole number/],
    [['sweep', 'a.yaml'], /at least one field/],
    [['sweep', 'a.yaml', '--vary', 'runners.lenght=1:2:1'], /cannot vary runners\.lenght/],
    [['sweep', 'a.yaml', '--vary', 'runners.length=2:1:1'], /--vary runners\.length=2:1:1: /],
    [['sweep', 'a.yaml', '--vary', 'runners.length=700', '--shard', '3/2'], /--shard is K\/N/],
    [['sweep', 'bad.yaml', '--vary', 'runners.length=700'], /bad\.yaml:\d+:\d+ runners\.length/],
    [['sweep'], /needs a plan/],
  ])('%j: exit 2 with the reason', (args, words) => {
    const ran = evenrun(args, folder);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(words);
    expect(ran.out).toBe('');
  });
});

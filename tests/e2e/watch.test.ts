import { existsSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { evenrun, TEMPLATE_FOLDER } from '../support/command.js';
import { childrenOf, type Heard, type Listener, type Watching, watchPlan } from '../support/watching.js';
import { commentsOf } from '../support/yaml-comments.js';

const SINGLE = readFileSync(join(TEMPLATE_FOLDER, 'single.yaml'), 'utf8');
const length = (mm: number): string => SINGLE.replace(/length: 720/, `length: ${mm}`);

const isRouted =
  (mm: number) =>
  ({ file, header }: Heard): boolean =>
    file?.state === 'routed' &&
    header?.kind === 'routed' &&
    header.tubes[0]!.target === mm &&
    header.base === file.base;

describe('evenrun watch', () => {
  let bench: Watching;
  let page: Listener;
  let other: Listener;
  beforeAll(async () => {
    bench = await watchPlan(SINGLE);
    page = await bench.listen();
    other = await bench.listen();
  });
  afterAll(async () => {
    await bench.stop();
  });

  it('tells two pages of the routes of the plan, at their length', async () => {
    for (const p of [page, other]) {
      await p.until(isRouted(720), 'the first routes');
      expect(p.heard.header!.tubes[0]!.length).toBeCloseTo(720, 6);
      expect(p.heard.header!.scene.tubes).toHaveLength(1);
    }
  });

  it('routes what is saved as the command does', async () => {
    bench.write(length(741));
    await page.until(isRouted(741), 'the routes of the saved plan');
    await other.until(isRouted(741), 'the same on the other page');
    const checked = JSON.parse(evenrun(['check', 'plan.yaml', '--json'], bench.folder).out);
    const { tubes, spread } = page.heard.header!;
    expect(checked.primaries.map((p: { length_mm: number }) => p.length_mm)).toEqual(tubes.map((t) => t.length));
    expect(checked.spread_mm).toBe(spread);
  });

  it('keeps the good result of a plan that breaks, and says what is wrong at which line, as the command does', async () => {
    const broken = length(741).replace('clearance:', 'clearence:');
    const line = broken.split('\n').findIndex((l) => l.includes('clearence:')) + 1;
    bench.write(broken);
    await page.until(({ file }) => file?.state === 'faulty', 'the fault');
    const { problems, words } = page.heard.file!;
    expect(problems[0]).toMatchObject({ line, path: 'runners.clearence' });
    expect(problems[0]!.text).toBe(broken.split('\n')[line - 1]);
    expect(evenrun(['check', 'plan.yaml'], bench.folder).err).toContain(words);
    expect(page.heard.header!.tubes[0]!.target).toBe(741);
    const late = await bench.listen();
    await late.until(
      ({ file, header }) => file?.state === 'faulty' && header !== null,
      'both on a page opened meanwhile',
    );
    expect(late.heard.header!.tubes[0]!.target).toBe(741);
    late.close();
  });

  it('says what binds when there is no route, and goes on', async () => {
    bench.write(length(150));
    await page.until(({ file }) => file?.state === 'no-route', 'the miss');
    expect(page.heard.file!.words).toMatch(/no set of routes keeps all limits[\s\S]*runners\.length/);
    expect(page.heard.header!.tubes[0]!.target).toBe(741);
    bench.write(SINGLE);
    await page.until(isRouted(720), 'the routes after it');
  });

  it('lives through a plan that goes and comes back, and editors that replace the file', async () => {
    rmSync(bench.plan);
    await page.until(({ file }) => file?.state === 'gone', 'the plan to be missed');
    expect(page.heard.header).not.toBeNull();
    writeFileSync(`${bench.plan}.new`, length(733));
    renameSync(`${bench.plan}.new`, bench.plan);
    await page.until(isRouted(733), 'the plan that came back');
  });

  it('lives through a hundred saves and shows the last', async () => {
    for (let i = 0; i < 100; i++) {
      bench.write(i % 10 === 7 ? 'broken: [' : length(700 + i));
      await new Promise((done) => setTimeout(done, 12));
    }
    await page.until(isRouted(799), 'the last of a hundred saves');
    await other.until(isRouted(799), 'the same on the other page');
    expect(bench.process.exitCode).toBeNull();
    const children = childrenOf(bench.process.pid!);
    if (children) expect(children.length).toBeLessThanOrEqual(1);
  });

  it('builds the parts, is not harmed when that is killed, says so and starts again', async (context) => {
    bench.write(length(726));
    await page.until(({ outputs }) => outputs?.state === 'building', 'the build to begin');
    const children = childrenOf(bench.process.pid!);
    if (children === null) return context.skip('this system does not tell whose child a process is');
    expect(children).toHaveLength(1);
    process.kill(children[0]!, 'SIGKILL');
    await page.until(
      ({ outputs }) => /stopped: it is started again$/.test(outputs?.words ?? ''),
      'word of the killed build',
    );
    await page.until(
      ({ outputs }) => outputs?.state === 'building' && !/stopped/.test(outputs.words),
      'the second try',
    );
    const [second] = childrenOf(bench.process.pid!)!;
    process.kill(second!, 'SIGKILL');
    await page.until(({ outputs }) => outputs?.state === 'stopped', 'word of the second kill');
    expect(page.heard.file!.state).toBe('routed');
    bench.write(length(727));
    await page.until(({ file, outputs }) => outputs?.state === 'built' && outputs.base === file?.base, 'the parts');
    const flange = page.heard.outputs!.files.find((f) => f.path === 'flange.dxf')!;
    const given = await fetch(`${bench.origin}/out/${flange.id}?token=${bench.token}`);
    expect(given.status).toBe(200);
    expect((await given.arrayBuffer()).byteLength).toBe(flange.bytes);
    expect(given.headers.get('content-disposition')).toBe('attachment; filename="flange.dxf"');
  });

  describe('changes', () => {
    const edit = { edit: 'runners', field: 'length', value: 755 };
    const base = (): string => page.heard.file!.base;

    it('are tried without a word in the file', async () => {
      await page.until(({ file }) => file?.state === 'routed', 'rest');
      const before = bench.read();
      for (const how of ['follow', 'route']) {
        const { said } = await bench.post('/trial', { client: 'a', base: base(), edits: [edit], how });
        expect(said).toMatchObject({ answer: 'header', header: { kind: how === 'route' ? 'routed' : 'followed' } });
        const { tubes } = (said as { header: { tubes: { length: number }[] } }).header;
        expect(tubes[0]!.length).toBeCloseTo(755, 6);
      }
      expect(bench.read()).toBe(before);
      expect(page.heard.header!.tubes[0]!.target).toBe(727);
    });

    it('that would make the plan unsound are refused in the words of the command, and not written', async () => {
      const before = bench.read();
      const bad = { ...edit, value: -5 };
      for (const path of ['/trial', '/save']) {
        const { said } = await bench.post(path, { client: 'a', base: base(), edits: [bad], how: 'follow' });
        expect(said.answer).toBe('faulty');
        expect(said.words).toMatch(/^plan\.yaml:\d+:\d+ runners\.length: expected a length over 0 mm .* found -5 mm/);
      }
      expect(bench.read()).toBe(before);
    });

    it('are written with comments kept and the earlier version beside', async () => {
      const before = bench.read();
      const { said } = await bench.post('/save', { base: base(), edits: [edit] });
      expect(said).toMatchObject({ answer: 'saved' });
      expect(parse(bench.read()).runners.length).toBe(755);
      expect(commentsOf(bench.read())).toEqual(commentsOf(before));
      expect(readFileSync(`${bench.plan}.bak`, 'utf8')).toBe(before);
      await page.until(isRouted(755), 'the routes of what was written');
      await other.until(isRouted(755), 'the same on the other page');
    });

    it('to a text that is no longer the file are refused', async () => {
      const old = base();
      bench.write(length(760));
      const other = { ...edit, value: 756 };
      const { said } = await bench.post('/save', { base: old, edits: [other] });
      expect(said.answer).toBe('conflict');
      expect(parse(bench.read()).runners.length).toBe(760);
      await page.until(isRouted(760), 'the new text');
      const late = await bench.post('/save', { base: old, edits: [other] });
      expect(late.said.answer).toBe('conflict');
    });

    it('of one page: only the newest counts', async () => {
      const ask = (value: number) =>
        bench.post('/trial', { client: 'b', base: base(), edits: [{ ...edit, value }], how: 'route' });
      const all = await Promise.all([ask(730), ask(740), ask(750)]);
      expect(all[2]!.said).toMatchObject({ answer: 'header', header: { tubes: [{ target: 750 }] } });
      expect(all.filter((a) => a.said.answer === 'superseded').length).toBeGreaterThanOrEqual(1);
    });
  });
});

describe('the end of evenrun watch', () => {
  it('is clean: exit 0 at Ctrl-C, with a page open, nothing left running', async () => {
    const bench = await watchPlan(SINGLE);
    const page = await bench.listen();
    await page.until(({ outputs }) => outputs?.state === 'building', 'the build to begin');
    const children = childrenOf(bench.process.pid!) ?? [];
    expect(await bench.stop()).toBe(0);
    for (const pid of children)
      expect(existsSync(`/proc/${pid}/cmdline`) && readFileSync(`/proc/${pid}/cmdline`, 'utf8')).toBeFalsy();
  });

  it.each([
    [['watch', 'nowhere.yaml'], /no such file/],
    [['watch', 'single.yaml', '--port', '70000'], /--port is a whole number from 0 to 65535/],
    [['watch', 'single.yaml', '--prt', '7000'], /Did you mean --port\?/],
    [['wach', 'single.yaml'], /watch/],
  ] as const)('%j: exit 2 with a hint', (args, hint) => {
    const ran = evenrun(args, TEMPLATE_FOLDER);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(hint);
  });
});

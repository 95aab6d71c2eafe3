import { describe, expect, test } from 'vitest';
import { comparisonPage, systemWords } from '../../../src/export/tuning/comparison-page.js';
import { pageSection, pagesHtml } from '../../../src/export/tuning/page-html.js';
import { pageText } from '../../../src/export/tuning/page-text.js';
import { pressurePlot } from '../../../src/export/tuning/pressure-plot.js';
import { verdictWords } from '../../../src/export/tuning/verdict-words.js';
import type { Plan } from '../../../src/params/plan.js';
import { comparisonOf } from '../../../src/parts/comparison/comparison.js';
import { rulesOf, tuningFiles, tuningOf, tuningPages } from '../../../src/tune.js';
import { csvRows } from '../../support/csv-rows.js';
import { routedStarter, starterPlan } from '../../support/starter.js';
import { sweepOf } from '../../support/sweep-of.js';

const header = routedStarter('inline-four');
const speeds = (overlaps: readonly number[], pumpings: readonly number[]) =>
  overlaps.map((overlap, i) => ({ rpm: 3000 + 1500 * i, overlap, pumping: pumpings[i]!, work: 600 - pumpings[i]! }));
const verdict = (header1: ReturnType<typeof speeds>, manifold: ReturnType<typeof speeds>) =>
  verdictWords(
    comparisonOf(header, [sweepOf('as routed', header1), sweepOf('existing manifold', manifold)]),
    'cast manifold',
    'mm',
  ).join('\n');

describe('header or manifold, by the figures', () => {
  test('one that leads in both is chosen', () => {
    expect(verdict(speeds([-9, -9, -9], [20, 30, 40]), speeds([2, 2, 2], [30, 40, 50]))).toMatch(/^Choose the header/);
    expect(verdict(speeds([2, 2, 2], [30, 40, 50]), speeds([-9, -9, -9], [20, 30, 40]))).toMatch(
      /^Keep the cast manifold/,
    );
  });

  test('level ones leave the manifold on', () => {
    expect(verdict(speeds([0, 0, 0], [30, 40, 50]), speeds([0.4, 0.2, 0], [30, 40, 50.2]))).toMatch(
      /^Keep the cast manifold: .* level as far as this calculation can tell/,
    );
  });

  test('one leading in each says which', () => {
    expect(verdict(speeds([-9, -9, -9], [30, 40, 50]), speeds([2, 2, 2], [20, 30, 40]))).toMatch(
      /^It depends .* the header is better in the overlap on average, the cast manifold in pumping work/,
    );
  });

  test('balances are where the lines cross, and what it takes is a length', () => {
    const words = verdict(speeds([4, -4, -12], [30, 40, 50]), speeds([0, 0, 0], [30, 40, 50]));
    expect(words).toMatch(
      /By the pressure in the overlap: the cast manifold from 3000 to 3750, the header from 3750 to 6000 rev\/min. They balance at 3750 rev\/min/,
    );
    // 875.6 mm from valve to joint, in step where length times speed stays the same
    expect(words).toMatch(/to lead from 3000 rev\/min on, its primaries would have to be about 1094\.\d mm/);
  });

  test('before the gas is calculated nothing is chosen', () => {
    const words = verdictWords(comparisonOf(header), 'cast manifold', 'mm').join('\n');
    expect(words).toMatch(/^Which to choose cannot be said from the paths alone/);
    expect(words).toMatch(/Lengths spread by 0\.0 mm against 90\.0 mm/);
  });

  test('unequal lengths cost what the calculation says', () => {
    const words = verdictWords(
      comparisonOf(header, [
        sweepOf('as routed', speeds([0, 0], [30, 40])),
        sweepOf('equal lengths', speeds([0, 0], [24, 34])),
        sweepOf('existing manifold', speeds([1, 1], [30, 40])),
      ]),
      'cast manifold',
      'mm',
    ).join('\n');
    expect(words).toMatch(/As routed the lengths are not equal: that costs 1\.05 % of the work/);
  });
});

describe('a divided turbine', () => {
  test('is told by what it is offered, against an open housing', () => {
    const plan = { ...header.plan, existing: null };
    const sweeps = [sweepOf('as routed', speeds([0], [1]), 120), sweepOf('open housing', speeds([0], [1]), 100)];
    const words = verdictWords(comparisonOf({ ...header, plan }, sweeps), '', 'mm');
    expect(words.at(-1)).toMatch(
      /offered 120 J a cycle by the divided housing, 100 J by an open one, on average: 20 % more/,
    );
    expect(words[0]).toMatch(/describes no manifold/);
  });
});

describe('the pages', () => {
  const tuning = tuningOf(header, [
    sweepOf('as routed', speeds([-9, -9, -9], [20, 30, 40])),
    sweepOf('existing manifold', speeds([2, 2, 2], [30, 40, 50])),
  ]);

  test('say who decides, what was taken and where the figures come from', () => {
    const text = tuningPages(tuning).map(pageText).join('\n');
    expect(text.match(/engine\s+builder decide/g)!.length).toBe(2);
    expect(text).toMatch(/attribution\s+unverified/);
    expect(text).toContain('Invented for a test.');
    expect(text).toMatch(/401\.6 mm to 1612\.5 mm, median 605\.8 mm/);
  });

  test('break words within a hundred signs, tables left alone', () => {
    const page = comparisonPage(header.plan, tuning.comparison!);
    const longest = pageText({ ...page, blocks: page.blocks.filter((b) => b.kind !== 'table') }).split('\n');
    expect(Math.max(...longest.map((l) => l.length))).toBeLessThanOrEqual(100);
  });

  test('escape every text in HTML and hold no script', () => {
    const plan = {
      ...header.plan,
      name: '<script>alert(1)</script>',
      existing: { ...header.plan.existing!, name: 'a <b> & "c"' },
    };
    const pages = tuningPages({ ...tuning, plan });
    const html = pagesHtml(plan.name, pages);
    expect(html).not.toMatch(/<script|<b>/);
    expect(html).toContain('a &lt;b&gt; &amp; &quot;c&quot;');
    expect(pages.map(pageSection).map((s) => s.id)).toEqual(['tuning-rules', 'tuning-comparison']);
  });

  test('become files whose tables read back', () => {
    const files = tuningFiles(tuning);
    const bytes = (path: string) => files.find((f) => f.path === path)!.bytes;
    const rows = (path: string) => csvRows(bytes(path));
    expect(files.every((f) => f.path.startsWith('tuning/') && f.bytes.length > 100)).toBe(true);
    expect(rows('tuning/audit.csv').map((r) => r.cylinder)).toEqual(['1', '2', '3', '4', '1', '2', '3', '4']);
    expect(new TextDecoder().decode(bytes('tuning/rules.csv'))).toMatch(
      /primary length,exhaust period,,685\.\d+,605\.\d+,/,
    );
    expect(rows('tuning/sweep.csv')).toHaveLength(12);
    expect(rows('tuning/pressure.csv')).toHaveLength(360);
    expect(new TextDecoder().decode(files.find((f) => f.path.endsWith('.pdf'))!.bytes.slice(0, 5))).toBe('%PDF-');
  });

  test('the same header gives the same bytes', () => {
    const again = tuningFiles(tuning);
    tuningFiles(tuning).forEach((f, i) => {
      expect(Buffer.compare(Buffer.from(f.bytes), Buffer.from(again[i]!.bytes)), f.path).toBe(0);
    });
  });

  test('a plan without valve events has its paths and no rules', () => {
    const plan = { ...header.plan, engine: { ...header.plan.engine, cam: null } };
    expect(rulesOf(plan)).toBeNull();
    expect(tuningPages(tuningOf({ ...header, plan })).map((p) => p.id)).toEqual(['tuning-comparison']);
  });

  test('plans in inches are answered in inches', () => {
    const plan = starterPlan('v8-bank');
    const ported = (lengthInHead: number | null): Plan => ({
      ...plan,
      ports: plan.ports.map((p) => ({ ...p, lengthInHead })),
    });
    expect(rulesOf(ported(null))).toBeNull();
    const whole = ported(76.2);
    const page = tuningPages({ plan: whole, rules: rulesOf(whole), comparison: null, sweeps: [] })[0]!;
    const text = pageText(page);
    expect(text.replaceAll('\n', ' ')).toContain('3.00 in of port in the head');
    expect(text).not.toMatch(/\d mm\b/);
  });
});

describe('pressure behind the valve', () => {
  test('is drawn at the nearest speed with the overlap marked', () => {
    const plot = pressurePlot([sweepOf('as routed', speeds([0, 0, 0], [1, 2, 3]))], 4600, (s) => systemWords(s, ''));
    expect(plot.title).toContain('cylinder 1 at 4500 rev/min');
    expect(plot.bands!.at(-1)).toEqual({ from: 335, to: 385, label: 'overlap' });
    expect(plot.lines[0]!.label).toBe('header');
    expect(() => pressurePlot([], 4600, String)).toThrow(RangeError);
  });
});

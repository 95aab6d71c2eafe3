/// <reference lib="dom" />
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Summary, summarySchema } from '../../src/export/summary/summary-schema.js';
import { openBrowser, openFile } from '../support/browser.js';
import { evenrun, TEMPLATE_FOLDER } from '../support/command.js';
import { differenceOf, inkOf } from '../support/pictures.js';
import { drawPdf, longestRun, wordsOfPdf } from '../support/read-pdf.js';
import { requireTool } from '../support/tools.js';

const NAME = 'four <script>alert(1)</script> & "co"';
const AXE = readFileSync(fileURLToPath(new URL('../../node_modules/axe-core/axe.min.js', import.meta.url)), 'utf8');
const PICTURE = fileURLToPath(new URL('book-view.png', import.meta.url));

/** Mean difference within which two pictures are alike: less than what hiding the head makes. */
const ALIKE = 0.004;

const folder = mkdtempSync(join(tmpdir(), 'evenrun-book-'));
const book = join(folder, 'four', 'book.html');
let summary: Summary;
let browser: Browser | undefined;

beforeAll(() => {
  const plan = readFileSync(`${TEMPLATE_FOLDER}inline-four.yaml`, 'utf8');
  writeFileSync(join(folder, 'four.yaml'), plan.replace('name: inline four', `name: '${NAME}'`));
  expect(evenrun(['build', 'four.yaml', '--out', 'four'], folder).code).toBe(0);
  summary = summarySchema.parse(JSON.parse(readFileSync(join(folder, 'four', 'summary.json'), 'utf8')));
});
afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true, force: true });
});

type Skip = Parameters<typeof openBrowser>[0];

/** The book, open in the one browser of these tests. */
async function open(context: Skip, options: Parameters<typeof openFile>[2] = {}) {
  browser ??= await openBrowser(context);
  return openFile(browser, book, options);
}

const drawn = (page: Page): Promise<unknown> =>
  page.waitForFunction(() => performance.getEntriesByName('evenrun-drawn').length > 0);

it('the book of the inline four takes less than 3 MB', () => {
  expect(statSync(book).size).toBeLessThan(3_000_000);
});

describe('the book in a browser', () => {
  it('opens from disk without network, without a fault, and shows a name with markup as text', async (context) => {
    const { page, faults } = await open(context);
    await drawn(page);
    expect(await page.title()).toBe(NAME);
    expect(await page.textContent('h1')).toBe(NAME);
    for (const id of await page.$$eval('.contents a', (links) => links.map((a) => (a as HTMLAnchorElement).hash))) {
      await page.click(`.contents a[href="${id}"]`);
    }
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('shows the numbers of the summary', async (context) => {
    const { page } = await open(context);
    const rows = await page.$$eval('#lengths tbody tr', (all) =>
      all.map((row) => Array.from((row as HTMLTableRowElement).cells).map((c) => c.textContent!.trim())),
    );
    expect(rows.map((r) => [r[0], r[3], r[7]])).toEqual(
      summary.primaries.map((p) => [`cylinder ${p.cylinder}`, p.length_mm.toFixed(3), p.clearance_mm!.toFixed(2)]),
    );
    const figures = await page.$$eval('.figures dt', (all) =>
      all.map((dt) => [dt.textContent, dt.parentElement!.querySelector('.value')!.textContent]),
    );
    expect(Object.fromEntries(figures)).toMatchObject({
      Spread: summary.spread_mm.toFixed(3),
      'Target length': summary.primaries[0]!.target_mm.toFixed(1),
      Stock: String(summary.stock!.pieces),
      Tubes: summary.stock!.tube_mass_kg!.toFixed(2),
      'Checks that hold': String(summary.findings.filter((f) => f.level === 'ok').length),
    });
    await page.context().close();
  });

  it('shows in the solid view what the summary has', async (context) => {
    const { page } = await open(context);
    await drawn(page);
    for (const p of summary.primaries) {
      await page.selectOption('.ev-panel select >> nth=0', String(p.cylinder));
      expect(await page.textContent('.ev-large')).toContain(p.length_mm.toFixed(2));
    }
    expect(
      await page.evaluate(() => document.querySelectorAll('.ev-panel input[type=checkbox]').length),
    ).toBeGreaterThan(5);
    await page.context().close();
  });

  it('is within reach of the keys', async (context) => {
    const { page } = await open(context);
    await page.keyboard.press('Tab');
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Skip to the book');
    await page.keyboard.press('Enter');
    expect(await page.evaluate(() => document.activeElement?.id)).toBe('main');
    const ground = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    const before = await ground();
    await page.focus('[data-theme-button]');
    await page.keyboard.press('Enter');
    await page.keyboard.press('Enter');
    expect(await page.textContent('[data-theme-button]')).toContain('dark');
    expect(await ground()).not.toBe(before);
    await page.context().close();
  });

  it.for(['light', 'dark'] as const)('has no serious fault of access, %s', async (colorScheme, context) => {
    const { page } = await open(context, { colorScheme });
    await drawn(page);
    // the policy of the page keeps other scripts out: this one comes from the driver
    const found = await page.evaluate(`${AXE}; axe.run(document, { resultTypes: ['violations'] })`);
    const { violations } = found as { violations: { id: string; impact: string; nodes: { html: string }[] }[] };
    expect(
      violations
        .filter((v) => v.impact === 'serious' || v.impact === 'critical')
        .map((v) => `${v.id}: ${v.nodes[0]?.html.slice(0, 200)}`),
    ).toEqual([]);
    await page.context().close();
  });

  it.for([390, 820, 1440])('does not scroll sideways and does not shift at %i px', async (width, context) => {
    const { page } = await open(context, { viewport: { width, height: 900 } });
    await drawn(page);
    const wide = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(wide).toBeLessThanOrEqual(width);
    const shift = await page.evaluate(
      () =>
        new Promise<number>((done) => {
          let sum = 0;
          new PerformanceObserver((list) => {
            for (const e of list.getEntries()) sum += (e as unknown as { value: number }).value;
          }).observe({ type: 'layout-shift' as 'mark', buffered: true });
          setTimeout(() => done(sum), 300);
        }),
    );
    expect(shift).toBeLessThan(0.01);
    await page.context().close();
  });

  it('draws the header: the picture is not blank and is like the one that was kept', async (context) => {
    const { page } = await open(context, { viewport: { width: 800, height: 900 } });
    await drawn(page);
    const shot = await page.locator('.ev-canvas').screenshot();
    if (process.env.FC_PICTURES) writeFileSync(PICTURE, shot);
    const blank = await browser!.newPage();
    expect(await inkOf(blank, shot)).toBeGreaterThan(0.1);
    expect(await differenceOf(blank, shot, readFileSync(PICTURE))).toBeLessThan(ALIKE);
    // and would tell the loss of a part
    await page.evaluate(`window.evenrun.view.show('head', false)`);
    await page.waitForTimeout(300);
    const without = await page.locator('.ev-canvas').screenshot();
    expect(await differenceOf(blank, without, readFileSync(PICTURE))).toBeGreaterThan(ALIKE);
    await page.context().close();
  });
});

it('shows the drawn views where the browser has no WebGL', async (context) => {
  browser ??= await openBrowser(context);
  const { page, faults } = await openFile(browser, book);
  await page.addInitScript(`HTMLCanvasElement.prototype.getContext = () => null`);
  await page.goto(`file://${book}`);
  expect(await page.isVisible('.overview img')).toBe(true);
  expect(faults).toEqual([]);
  await page.context().close();
});

describe('the book on paper', () => {
  it.for(['A4', 'Letter'])('has patterns at 1:1 on %s', async (paper, context) => {
    const { page, faults } = await open(context);
    await drawn(page);
    const pdf = await page.pdf({ format: paper });
    const words = wordsOfPdf(requireTool('pdftotext', context), pdf);
    const pages = drawPdf(requireTool('pdftoppm', context), pdf);
    const tiles = words.flatMap((w, i) => (w.includes('This square must measure') ? [i] : []));
    const stated = summary.files.filter((f) => /^patterns\/.*\.svg$/.test(f.path)).length;
    expect(tiles.length).toBeGreaterThanOrEqual(stated);
    for (const i of tiles) {
      const { height } = pages[i]!;
      // the square is drawn with a line of 0.2 mm, and is all that is so long in the lower part of the page
      const band = [height / 10 - 80, height / 10 - 12] as const;
      expect(Math.abs(longestRun(pages[i]!, 'x', band) - 50.2)).toBeLessThanOrEqual(0.2);
      expect(Math.abs(longestRun(pages[i]!, 'y', [10, 30]) - 50.2)).toBeLessThanOrEqual(0.2);
    }
    expect(words.join('\n')).toContain('Front: looking at the head');
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('prints nothing wider than the page, which would shrink it all', async (context) => {
    const { page } = await open(context, { viewport: { width: 718, height: 1000 } });
    await page.emulateMedia({ media: 'print' });
    await page.evaluate(() => dispatchEvent(new Event('beforeprint')));
    const wide = await page.evaluate(() =>
      Array.from(document.querySelectorAll('main table, main figure, main pre, main .tile'))
        .filter((e) => e.getBoundingClientRect().right > 719)
        .map((e) => e.textContent?.slice(0, 60)),
    );
    expect(wide).toEqual([]);
    await page.context().close();
  });
});

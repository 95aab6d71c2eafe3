import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeEach, describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { openBrowser } from '../support/browser.js';
import { TEMPLATE_FOLDER } from '../support/command.js';
import { type Watching, watchPlan } from '../support/watching.js';
import { commentsOf } from '../support/yaml-comments.js';

const FOUR = readFileSync(join(TEMPLATE_FOLDER, 'inline-four.yaml'), 'utf8');
const AXE = readFileSync(new URL('../../node_modules/axe-core/axe.min.js', import.meta.url), 'utf8');

/** Of what the page's view tells of itself. */
interface Shown {
  readonly draws: boolean;
  readonly camera: unknown;
  readonly triangles: number;
}

describe('the page of evenrun watch', () => {
  let browser: Browser | null = null;
  let bench: Watching;
  let page: Page;
  let faults: string[];

  beforeEach(async (context) => {
    browser ??= await openBrowser(context);
    bench = await watchPlan(FOUR);
    faults = [];
    page = await opened();
  });
  afterEach(async () => {
    await page?.context().close();
    await bench?.stop();
    expect(faults).toEqual([]);
  });
  afterAll(async () => {
    await browser?.close();
  });

  async function opened(): Promise<Page> {
    const context = await browser!.newContext({ viewport: { width: 1440, height: 1000 } });
    const fresh = await context.newPage();
    fresh.setDefaultTimeout(60_000);
    fresh.on('console', (m) => m.type() === 'error' && faults.push(m.text()));
    fresh.on('pageerror', (e) => faults.push(String(e)));
    fresh.on(
      'request',
      (r) => new URL(r.url()).origin === bench.origin || r.url().startsWith('data:') || faults.push(r.url()),
    );
    await fresh.goto(bench.url);
    await fresh.locator('.state', { hasText: 'routes as a build gives them' }).waitFor();
    return fresh;
  }

  const lengths = (of: Page = page): Promise<string[]> => of.locator('.lengths td:nth-child(2)').allTextContents();
  const untilLengths = (mm: string, of: Page = page): Promise<void> =>
    of.locator(`.lengths td:nth-child(2):text-is("${mm}")`).nth(3).waitFor();
  const shown = (): Promise<Shown> => page.evaluate('evenrunBench.view().state()');
  const settled = (): Promise<unknown> =>
    page.locator('.state', { hasText: 'not written: routes as a build gives them' }).waitFor();

  it('shows every length and draws the header', async () => {
    expect(await lengths()).toEqual(['760.00', '760.00', '760.00', '760.00']);
    expect(await page.locator('.large').first().textContent()).toBe('0.000 mm');
    expect((await shown()).draws).toBe(true);
    await expect.poll(async () => (await shown()).triangles, { timeout: 20_000 }).toBeGreaterThan(1000);
  });

  it('follows a save with the same camera, and shows an error at its line', async () => {
    await page.getByRole('button', { name: 'Side', exact: true }).click();
    const before = (await shown()).camera;
    bench.write(FOUR.replace('length: 760', 'length: 775'));
    await untilLengths('775.00');
    expect((await shown()).camera).toEqual(before);
    bench.write(FOUR.replace('spread: 1 ', 'spred: 1 '));
    const line = FOUR.split('\n').findIndex((l) => l.includes('spread: 1 ')) + 1;
    const problem = page.locator('.problems li');
    await problem.waitFor();
    expect(await problem.textContent()).toMatch(
      new RegExp(`Line ${line}, column 3 runners\\.spred.*spred: 1.*did you mean "spread"`),
    );
    expect(await lengths()).toContain('775.00');
    expect(await page.locator('#field-runners-length').isDisabled()).toBe(true);
    bench.write(FOUR);
    await untilLengths('760.00');
    expect(await problem.count()).toBe(0);
  });

  it('tries what is typed live, writes it when asked to, comments kept, the earlier version beside', async () => {
    const second = await opened();
    await page.locator('#field-runners-length').fill('772.5');
    await untilLengths('772.50');
    await settled();
    expect(bench.read()).toBe(FOUR);
    expect(await lengths(second)).toContain('760.00');
    await page.locator('#field-collector-0-clocking').fill('50');
    await page.getByRole('button', { name: 'Save to plan' }).click();
    await page.locator('.said', { hasText: 'Saved: written; the earlier version is kept as plan.yaml.bak' }).waitFor();
    const { runners, collector } = parse(bench.read());
    expect([runners.length, collector.clocking]).toEqual([772.5, 50]);
    expect(commentsOf(bench.read())).toEqual(commentsOf(FOUR));
    expect(readFileSync(`${bench.plan}.bak`, 'utf8')).toBe(FOUR);
    await untilLengths('772.50', second);
    await second.context().close();
  });

  it('refuses an unsound change in words, and goes back by undo and discard', async () => {
    await page.locator('#field-runners-length').fill('-5');
    await page.locator('.trouble', { hasText: 'runners.length' }).waitFor();
    await page.getByRole('button', { name: 'Save to plan' }).click();
    await page.locator('.said', { hasText: /^Not saved: .*expected a length over 0 mm/ }).waitFor();
    expect(bench.read()).toBe(FOUR);
    await page.getByRole('button', { name: 'Undo' }).click();
    expect(await page.locator('.trouble').count()).toBe(0);
    await page.locator('#field-runners-length').fill('768');
    await untilLengths('768.00');
    await page.getByRole('button', { name: 'Discard' }).click();
    await untilLengths('760.00');
    expect(await page.locator('#field-runners-length').inputValue()).toBe('760');
  });

  it('tells of a file that was changed by somebody else before it writes over that', async () => {
    await page.locator('#field-runners-length').fill('770');
    await untilLengths('770.00');
    bench.write(FOUR.replace('clearance: 8 ', 'clearance: 9 '));
    await page.locator('.said', { hasText: 'changed by somebody else' }).waitFor();
    expect(parse(bench.read()).runners.length).toBe(760);
    await settled();
    await page.keyboard.press('Control+s');
    await page.locator('.said', { hasText: 'Saved' }).waitFor();
    expect(parse(bench.read()).runners).toMatchObject({ length: 770, clearance: 9 });
  });

  it('drags the collector, and a point of a route taken by hand', async () => {
    await drag('collector', 30, 0);
    await settled();
    const x = Number(await page.locator('#field-collector-0-at-x').inputValue());
    expect(x).not.toBe(160);
    expect(new Set(await lengths())).toEqual(new Set(['760.00']));
    await page.getByRole('button', { name: 'Take by hand: the route of cylinder 2, to drag its points' }).click();
    await page.locator('tr[data-tube="2"]', { hasText: 'by hand' }).waitFor();
    await settled();
    // across the tube, so that its length changes by more than the spread allowed
    await drag('point 2', 30, -30);
    await page.locator('tr[data-tube="2"] td:nth-child(3)', { hasText: '\u26a0' }).waitFor();
    await settled();
    await page.getByRole('button', { name: 'Save to plan' }).click();
    await page.locator('.said', { hasText: 'Saved' }).waitFor();
    const { collector, runners } = parse(bench.read());
    expect(collector.at[0]).toBe(x);
    expect(runners.routes).toMatchObject([{ by: 'xyz', cylinder: 2 }]);
    expect(commentsOf(bench.read())).toEqual(commentsOf(FOUR));
  });

  /** Drags a handle by its label, which stands 20 pixels below it. */
  async function drag(title: string, right: number, down: number): Promise<void> {
    const label = page.locator('.ev-label[style*="visible"]', { hasText: new RegExp(`^${title}$`) });
    const box = (await label.boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height / 2 - 20];
    await page.mouse.move(x, y);
    await page.mouse.down();
    for (let i = 1; i <= 5; i++) await page.mouse.move(x + (right * i) / 5, y + (down * i) / 5);
    await page.mouse.up();
  }

  it.each([
    ['light', 390],
    ['light', 820],
    ['dark', 1440],
  ] as const)(
    'has no serious fault by axe-core in %s at %d px, and nothing wider than the screen',
    async (colorScheme, width) => {
      await page.emulateMedia({ colorScheme });
      await page.setViewportSize({ width, height: 900 });
      bench.write(FOUR.replace('clearance: 8 ', 'clearance: x '));
      await page.locator('.problems li').waitFor();
      expect(await page.evaluate('document.documentElement.scrollWidth')).toBeLessThanOrEqual(width);
      await page.evaluate(AXE);
      const found = await page.evaluate<readonly (readonly [impact: string, id: string, html: string])[]>(
        'axe.run().then(({ violations }) => violations.map((v) => [v.impact, v.id, v.nodes[0].html]))',
      );
      expect(found.filter(([impact]) => impact === 'serious' || impact === 'critical')).toEqual([]);
    },
  );

  it('is used by keys alone: a field, counted up, undone', async () => {
    await page.locator('#field-runners-length').focus();
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Shift+ArrowUp');
    expect(await page.locator('#field-runners-length').inputValue()).toBe('771');
    await untilLengths('771.00');
    await page.getByRole('button', { name: 'Undo' }).focus();
    await page.keyboard.press('Enter');
    await untilLengths('761.00');
  });
});

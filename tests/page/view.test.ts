import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import axe from 'axe-core';
import { build } from 'esbuild';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { sceneOf } from '../../src/export/book/scene.js';
import type { SceneData } from '../../src/export/book/scene-data.js';
import { distance, type Vec3 } from '../../src/geometry/vec3.js';
import { mockUpOf } from '../../src/parts/jigs/jigs.js';
import { cutsOf } from '../../src/parts/tube/tube-cuts.js';
import { openBrowser, openFile } from '../support/browser.js';
import { routedStarter } from '../support/starter.js';
import { requireTool } from '../support/tools.js';

const header = routedStarter('inline-four');
const cuts = header.primaries.map((t) => cutsOf(header.plan, t));
const scene = sceneOf({ ...header, cuts, jigs: mockUpOf(header).parts });
/** The same header with its first two tubes alone, under another name. */
const fewer: SceneData = { ...scene, name: 'fewer', tubes: scene.tubes.slice(0, 2), gaps: [], solids: [] };

const folder = mkdtempSync(join(tmpdir(), 'evenrun-view-'));
let browser: Browser | null = null;
let page: Page;
let faults: string[];

beforeAll(async () => {
  writeFileSync(join(folder, 'view.html'), await pageOf(scene));
});

beforeEach(async (context) => {
  requireTool('chromium', context);
  browser ??= await openBrowser(context);
  ({ page, faults } = await openFile(browser, join(folder, 'view.html')));
  await page.waitForFunction('window.view && view.state().frames > 0');
  return async () => {
    await page.context().close();
    expect(faults).toEqual([]);
  };
});

afterAll(async () => {
  await browser?.close();
  rmSync(folder, { recursive: true });
});

/** A page that holds a scene and nothing but the view of it. */
async function pageOf(data: SceneData): Promise<string> {
  const entry = [
    "import { mountView } from './src/page/view/view.ts';",
    'const data = (id) => JSON.parse(document.getElementById(id).textContent);',
    "window.view = mountView(document.getElementById('view'), data('scene'), { name: 'first' });",
    "window.fewer = data('fewer');",
  ].join('\n');
  const { outputFiles } = await build({
    stdin: { contents: entry, resolveDir: process.cwd() },
    bundle: true,
    write: false,
    minify: true,
    format: 'iife',
    charset: 'ascii',
  });
  const json = (id: string, what: SceneData): string =>
    `<script type="application/json" id="${id}">${JSON.stringify(what).replaceAll('<', '\\u003c')}</script>`;
  const script = outputFiles[0]!.text.replaceAll('</script', '<\\/script');
  return `<!doctype html><html lang="en"><meta charset="utf-8"><meta name="viewport" content="width=device-width">
<title>view</title><body><main id="view"></main>${json('scene', data)}${json('fewer', fewer)}<script>${script}</script></body></html>`;
}

// biome-ignore lint/suspicious/noExplicitAny: what comes from the page is plain data
const state = (): Promise<any> => page.evaluate('view.state()');
const text = (name: string): Promise<string> =>
  page.locator(`[data-value="${name}"]`).evaluate((n) => n.textContent ?? '');

/** Part of the canvas that is not of the ground's colour, once what was asked for is drawn. */
async function filled(): Promise<number> {
  await page.evaluate('new Promise((r) => requestAnimationFrame(() => requestAnimationFrame(r)))');
  const shot = (await page.locator('canvas').screenshot()).toString('base64');
  return page.evaluate(`(async () => {
    const bitmap = await createImageBitmap(await (await fetch('data:image/png;base64,${shot}')).blob());
    const context = new OffscreenCanvas(bitmap.width, bitmap.height).getContext('2d');
    context.drawImage(bitmap, 0, 0);
    const { data } = context.getImageData(0, 0, bitmap.width, bitmap.height);
    const ground = data.slice(4 * (8 * bitmap.width + 8));
    let other = 0;
    for (let i = 0; i < data.length; i += 4) {
      if ([0, 1, 2].some((k) => Math.abs(data[i + k] - ground[k]) > 12)) other++;
    }
    return (4 * other) / data.length;
  })()`);
}

describe('the view of a header in a page opened from disk', () => {
  it('draws the header, and nothing more while nothing changes', async () => {
    expect(await filled()).toBeGreaterThan(0.08);
    const { frames, triangles, draws } = await state();
    expect(draws).toBe(true);
    expect(triangles).toBeGreaterThan(10_000);
    await page.waitForTimeout(400);
    expect((await state()).frames).toBe(frames);
  });

  it('lights a tube that is chosen and tells its length as the summary does', async () => {
    const before = await filled();
    await page.getByLabel('Tube', { exact: true }).selectOption('2');
    expect((await state()).selected).toBe('2');
    const tube = header.primaries[1]!;
    await expect(page.locator('.ev-large').textContent()).resolves.toBe(`${tube.length.toFixed(2)} mm`);
    const pieces = cuts[1]!.pieces.map((c) => c.piece.name);
    const names = await page.locator('.ev-parts button').allInnerTexts();
    expect(names).toEqual([...pieces, ...cuts[1]!.joints.map((j) => j.name)]);
    await page.getByLabel('Tube', { exact: true }).selectOption('');
    expect((await state()).selected).toBeNull();
    expect(Math.abs((await filled()) - before)).toBeLessThan(0.002);
  });

  it('selects the tube that is pressed, and tells those who listen', async () => {
    await page.evaluate('window.told = []; view.onSelect((t) => told.push(t))');
    const on = await placeOnScreen(header.primaries[3]!.path.segments[0]!.from, [0, 0, 120]);
    await page.mouse.click(on.x, on.y);
    expect((await state()).selected).toBe('4');
    await page.keyboard.press('Escape');
    expect(await page.evaluate('told')).toEqual(['4', null]);
  });

  it('reads place, section and bend under the slider, by mouse and keys', async () => {
    await page.getByLabel('Tube', { exact: true }).selectOption('1');
    const slider = page.getByLabel('Place along the tube');
    await slider.focus();
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Shift+ArrowRight');
    expect((await state()).place.run).toBe(11);
    const { od, wall } = header.primaries[0]!.sections[0]!;
    expect(await text('run')).toBe('11.0 mm');
    expect(await text('area')).toBe(`${(Math.PI * (od / 2 - wall) ** 2).toFixed(0)} mm²`);
    expect(await text('outer')).toBe(`${(od / 2).toFixed(2)} mm`);
    expect(await text('bend')).toBe('straight');
    const bend = header.primaries[0]!.path.segments.find((s) => s.kind === 'bend')!;
    const first = header.primaries[0]!.path.segments[0]!;
    await page.evaluate(`view.setSlider(${(first.kind === 'straight' ? first.length : 0) + 5})`);
    expect(await text('bend')).toContain(`CLR ${bend.kind === 'bend' ? bend.clr.toFixed(1) : ''} mm`);
    const joint = cuts[0]!.joints[1]!;
    await page.getByRole('button', { name: `joint ${joint.name}` }).click();
    expect((await state()).place.run).toBeCloseTo(joint.run, 6);
    expect(distance((await state()).place.point as Vec3, joint.point)).toBeLessThan(1e-6);
    await page.keyboard.press('Tab');
    await slider.focus();
    await page.keyboard.press('End');
    expect((await state()).place.run).toBeCloseTo(header.primaries[0]!.length, 6);
  });

  it('hides and shows every kind there is', async () => {
    const before = await filled();
    for (const kind of ['flange', 'collector', 'keep-out', 'head', 'port', 'tube']) {
      await page.locator(`[data-kind="${kind}"]`).uncheck();
      expect((await state()).shown[kind]).toBe(false);
    }
    await page.locator('[data-kind="label"]').uncheck();
    expect(await filled()).toBeLessThan(0.001);
    await page.locator('[data-kind="jig"]').check();
    expect(await filled()).toBeGreaterThan(0.04);
    for (const kind of ['tube', 'collector', 'flange', 'keep-out', 'head', 'port', 'label']) {
      await page.locator(`[data-kind="${kind}"]`).check();
    }
    await page.locator('[data-kind="jig"]').uncheck();
    expect(Math.abs((await filled()) - before)).toBeLessThan(0.002);
    // kinds this header has none of are not offered
    await expect(page.locator('[data-kind="scan"]').isVisible()).resolves.toBe(false);
  });

  it('cuts the picture open along each axis, at the offset of its slider and on either side', async () => {
    const whole = await filled();
    for (const axis of ['x', 'y', 'z']) {
      await page.getByLabel('Plane').selectOption(axis);
      const { section } = await state();
      expect(section).toMatchObject({ axis, keep: 'below' });
      const below = await filled();
      expect(below).toBeLessThan(whole);
      await page.getByLabel('Keep the other side').check();
      expect((await state()).section.keep).toBe('above');
      expect(await filled()).toBeLessThan(whole);
      await page.getByLabel('Keep the other side').uncheck();
      await page.getByLabel('Offset').focus();
      await page.keyboard.press('ArrowRight');
      expect((await state()).section.offset).toBe(section.offset + 1);
    }
    await page.getByLabel('Plane').selectOption('');
    expect(Math.abs((await filled()) - whole)).toBeLessThan(0.002);
  });

  it('measures between two pressed points: across a tube it is its diameter', async () => {
    await page.getByRole('button', { name: 'Top' }).click();
    await page.getByRole('button', { name: 'Pick two points' }).click();
    const { from } = header.primaries[1]!.path.segments[0]!;
    const { od } = header.primaries[1]!.sections[0]!;
    // nearly at the edges of the tube as it is seen from above
    for (const side of [-0.999, 0.999]) {
      const on = await placeOnScreen(from, [(side * od) / 2, 0, 60]);
      await page.mouse.click(on.x, on.y);
    }
    const { measurement } = await state();
    expect(Math.abs(measurement.distance - od)).toBeLessThan(1.5);
    expect(measurement.within).toBe(0);
    const said = await page.locator('fieldset', { hasText: 'Measure' }).locator('output').textContent();
    expect(said).toContain(`${measurement.distance.toFixed(2)} mm`);
    await page.getByRole('button', { name: 'Clear' }).click();
    expect((await state()).measurement).toBeNull();
  });

  it('measures between two places of the slider without a mouse', async () => {
    await page.getByLabel('Tube', { exact: true }).selectOption('1');
    await page.getByRole('button', { name: 'From the slider' }).press('Enter');
    await page.getByLabel('Tube', { exact: true }).selectOption('4');
    await page.getByRole('button', { name: 'To the slider' }).press('Enter');
    const [a, b] = [header.plan.ports[0]!, header.plan.ports[3]!];
    expect((await state()).measurement.distance).toBeCloseTo(distance(a.frame.origin, b.frame.origin), 6);
  });

  it('shows the closest place of two tubes with the distance of the check', async () => {
    await page.getByLabel('Between').selectOption('1');
    await page.getByLabel('and', { exact: true }).selectOption('2');
    const gaps = header.gaps.filter((g) => g.tubes.length === 2 && g.tubes.join() === '1,2');
    expect(gaps.length).toBeGreaterThan(1);
    const said = page.locator('fieldset', { hasText: 'Closest place' }).locator('output');
    for (const [i, gap] of gaps.entries()) {
      await page.getByLabel('Where').selectOption(String(i));
      expect((await state()).closest.value).toBeCloseTo(gap.value, 9);
      expect(await said.textContent()).toContain(`${gap.value.toFixed(2)} mm between ${gap.place}`);
    }
    await page.getByLabel('and', { exact: true }).selectOption('1');
    expect((await state()).closest).toBeNull();
    // asked for by the page, the controls follow
    await page.evaluate("view.showClosest(['3', '4'], 1)");
    expect(await page.getByLabel('Between').inputValue()).toBe('3');
    expect(await page.getByLabel('and', { exact: true }).inputValue()).toBe('4');
    expect(await page.getByLabel('Where').inputValue()).toBe('1');
  });

  it('turns, moves, zooms and comes back by keys and by buttons', async () => {
    await page.locator('canvas').focus();
    const home = (await state()).camera;
    await page.keyboard.press('ArrowLeft');
    const turned = (await state()).camera;
    expect(distance(turned.position, home.position)).toBeGreaterThan(100);
    expect(distance(turned.target, home.target)).toBeLessThan(1e-6);
    await page.keyboard.press('Shift+ArrowUp');
    expect(distance((await state()).camera.target, home.target)).toBeGreaterThan(1);
    await page.keyboard.press('+');
    expect((await state()).camera.zoom).toBeGreaterThan(home.zoom);
    await page.keyboard.press('-');
    expect((await state()).camera.zoom).toBeCloseTo(turned.zoom, 9);
    for (const [name, axis] of [
      ['Front', 2],
      ['Top', 1],
      ['Side', 0],
    ] as const) {
      await page.getByRole('button', { name }).click();
      const { position, target } = (await state()).camera;
      const way = [0, 1, 2].map((k) => position[k] - target[k]);
      expect(Math.abs(way[axis]!) / Math.hypot(...way)).toBeGreaterThan(0.999);
      expect(await filled()).toBeGreaterThan(0.05);
    }
    await page.getByRole('button', { name: 'Angled' }).click();
    await page.locator('canvas').focus();
    await page.keyboard.press('Home');
    expect((await state()).camera.zoom).toBeCloseTo(home.zoom, 3);
    const { zoom } = (await state()).camera;
    await page.getByRole('button', { name: 'Nearer' }).click();
    expect((await state()).camera.zoom).toBeCloseTo(1.25 * zoom, 9);
    await page.getByRole('button', { name: 'Farther' }).click();
    await page.getByRole('button', { name: 'Fit' }).click();
    expect((await state()).camera.zoom).toBeCloseTo(zoom, 3);
  });

  it('turns by a drag and zooms by the wheel once it has the focus', async () => {
    const box = (await page.locator('canvas').boundingBox())!;
    const [x, y] = [box.x + box.width / 2, box.y + box.height - 12];
    const { camera } = await state();
    await page.mouse.move(x, y);
    await page.mouse.wheel(0, -200);
    expect((await state()).camera.zoom).toBe(camera.zoom);
    await page.mouse.down();
    await page.mouse.move(x + 80, y - 30, { steps: 4 });
    await page.mouse.up();
    expect(distance((await state()).camera.position, camera.position)).toBeGreaterThan(200);
    expect((await state()).selected).toBeNull();
    await page.mouse.wheel(0, -200);
    await page.waitForTimeout(100);
    expect((await state()).camera.zoom).toBeGreaterThan(camera.zoom);
  });

  it('keeps camera, tube and pair when another scene comes, and lets go of what is gone', async () => {
    await page.evaluate("view.look('side'); view.select('2'); view.setSlider(100); view.showClosest(['1', '2'])");
    const before = await state();
    await page.evaluate('view.setScene(window.fewer)');
    const after = await state();
    expect(after.camera).toEqual(before.camera);
    expect(after).toMatchObject({ selected: '2', closest: { limit: null } });
    expect(after.place.run).toBe(100);
    await page.evaluate('view.select(null); view.setScene({ ...window.fewer, tubes: [] })');
    expect((await state()).selected).toBeNull();
  });

  it('lays a second scene over the first, told apart by name', async () => {
    const alone = await state();
    await page.evaluate("view.setOverlay(window.fewer, 'second')");
    await filled();
    expect((await state()).overlay).toBe('second');
    expect((await state()).triangles).toBeGreaterThan(alone.triangles);
    const labels = await page.locator('.ev-label-tube').allTextContents();
    expect(labels).toEqual(expect.arrayContaining(['1 first', '4 first', '1 second', '2 second']));
    await page.evaluate('view.setOverlay(null)');
    await filled();
    expect((await state()).triangles).toBe(alone.triangles);
    expect(await page.locator('.ev-label-tube').allTextContents()).toEqual(['1', '2', '3', '4']);
  });

  it('lets handles be dragged, along a line where that is asked', async () => {
    await page.evaluate(`window.moves = [];
      view.look('front');
      view.onHandle((m) => moves.push(m));
      view.setHandles([{ id: 'collector', title: 'collector', at: [0, -300, 200], along: [1, 0, 0] }])`);
    const from = await placeOnScreen([0, -300, 200], [0, 0, 0]);
    const to = await placeOnScreen([60, -250, 200], [0, 0, 0]);
    await page.mouse.move(from.x, from.y);
    await page.mouse.down();
    await page.mouse.move(to.x, to.y, { steps: 3 });
    await page.mouse.up();
    // biome-ignore lint/suspicious/noExplicitAny: what comes from the page is plain data
    const moves = (await page.evaluate('moves')) as any[];
    expect(moves.at(-1)).toMatchObject({ id: 'collector', done: true });
    expect(distance(moves.at(-1).at, [60, -300, 200])).toBeLessThan(1.5);
    expect(moves.slice(0, -1).every((m) => !m.done)).toBe(true);
  });

  it('follows the theme it is given', async () => {
    const ground = () => page.evaluate("getComputedStyle(document.querySelector('.ev-stage')).backgroundColor");
    const light = await ground();
    await page.evaluate("view.setTheme('dark')");
    expect(await ground()).not.toBe(light);
    await page.evaluate('view.setTheme(null)');
    expect(await ground()).toBe(light);
  });

  it('has room at 390, 820 and 1440 pixels: nothing wider than the page', async () => {
    for (const width of [390, 820, 1440]) {
      await page.setViewportSize({ width, height: 900 });
      await page.evaluate("view.select('1')");
      const over = await page.evaluate('document.documentElement.scrollWidth - innerWidth');
      expect(over).toBeLessThanOrEqual(0);
      expect(await filled()).toBeGreaterThan(0.04);
    }
  });

  it('has no fault that axe-core calls serious, light and dark, with a tube chosen', async () => {
    await page.addScriptTag({ content: axe.source });
    for (const theme of ['light', 'dark']) {
      await page.evaluate(`view.setTheme('${theme}'); document.documentElement.dataset.theme = '${theme}'`);
      await page.evaluate("view.select('2'); view.setSection({ axis: 'x', offset: 100, keep: 'below' })");
      // biome-ignore lint/suspicious/noExplicitAny: what comes from the page is plain data
      const { violations } = (await page.evaluate('axe.run(document.querySelector(".ev-view"))')) as any;
      expect(violations.map((v: { id: string; nodes: unknown[] }) => `${v.id} ${JSON.stringify(v.nodes)}`)).toEqual([]);
    }
  });

  it('goes when it is told to', async () => {
    await page.evaluate('view.dispose()');
    expect(await page.locator('.ev-view').count()).toBe(0);
  });
});

describe('a browser without WebGL', () => {
  it('is told so in words, and the figures are there', async () => {
    const context = await browser!.newContext({ offline: true });
    const bare = await context.newPage();
    await bare.addInitScript(
      "const get = HTMLCanvasElement.prototype.getContext; HTMLCanvasElement.prototype.getContext = function (kind, ...rest) { return kind.startsWith('webgl') ? null : get.call(this, kind, ...rest); };",
    );
    const wrong: string[] = [];
    bare.on('pageerror', (e) => wrong.push(String(e)));
    await bare.goto(`file://${join(folder, 'view.html')}`);
    await bare.getByLabel('Tube', { exact: true }).selectOption('3');
    expect(await bare.getByRole('status').first().textContent()).toContain('WebGL');
    expect(await bare.locator('.ev-large').textContent()).toBe(`${header.primaries[2]!.length.toFixed(2)} mm`);
    expect(wrong).toEqual([]);
    await context.close();
  });
});

/** Where a place of the world stands on the screen, as the camera in its state says: an independent projection. */
async function placeOnScreen(at: Vec3, shift: Vec3): Promise<{ readonly x: number; readonly y: number }> {
  const { camera } = await state();
  const box = (await page.locator('canvas').boundingBox())!;
  const inner = (await page.evaluate("document.querySelector('canvas').clientHeight")) as number;
  const width = (await page.evaluate("document.querySelector('canvas').clientWidth")) as number;
  const unitOf = (v: readonly number[]): number[] => v.map((c) => c / Math.hypot(...v));
  const cross = (a: readonly number[], b: readonly number[]): number[] => [
    a[1]! * b[2]! - a[2]! * b[1]!,
    a[2]! * b[0]! - a[0]! * b[2]!,
    a[0]! * b[1]! - a[1]! * b[0]!,
  ];
  const dot = (a: readonly number[], b: readonly number[]): number => a[0]! * b[0]! + a[1]! * b[1]! + a[2]! * b[2]!;
  const back = unitOf([0, 1, 2].map((k) => camera.position[k] - camera.target[k]));
  const right = unitOf(cross([0, 1, 0], back));
  const up = cross(back, right);
  const way = [0, 1, 2].map((k) => at[k]! + shift[k]! - camera.target[k]);
  const scale = (inner / 1000) * camera.zoom;
  return { x: box.x + width / 2 + dot(way, right) * scale, y: box.y + inner / 2 - dot(way, up) * scale };
}

// Pictures of the build book for the README: builds a starter plan (the bank of a vee eight, or the one named on the command line) and
// writes book-390.png, book-820.png and book-1440.png beside this file, each as wide in pixels as it is named.
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { chromium } from 'playwright-core';

const here = fileURLToPath(new URL('.', import.meta.url));
const root = join(here, '..');
const template = process.argv[2] ?? 'v8-bank';

/** What each picture shows: how wide and high, and which section stands at the top. */
const PICTURES = [
  { width: 390, height: 844, at: null, scheme: 'dark' },
  { width: 820, height: 1060, at: null, scheme: 'light' },
  { width: 1440, height: 900, at: 'view', scheme: 'light' },
];

/** Largest picture, bytes: a README loads at once. */
const LARGEST = 300_000;

const folder = mkdtempSync(join(tmpdir(), 'evenrun-pictures-'));
const args = [join(root, 'dist/cli/main.js'), 'build', join(root, `templates/${template}.yaml`), '--out', join(folder, 'built')];
const ran = spawnSync(process.execPath, args, { stdio: ['ignore', 'ignore', 'inherit'] });
if (ran.status !== 0) throw new Error(`building ${template} exited with ${ran.status}`);

const browser = await chromium.launch({
  executablePath: '/usr/bin/chromium',
  headless: true,
  args: ['--no-sandbox', '--disable-gpu', '--use-gl=angle', '--use-angle=swiftshader', '--enable-unsafe-swiftshader'],
});
for (const { width, height, at, scheme } of PICTURES) {
  const context = await browser.newContext({ viewport: { width, height }, colorScheme: scheme, offline: true });
  const page = await context.newPage();
  await page.goto(`file://${join(folder, 'built', 'book.html')}`);
  await page.waitForFunction(() => performance.getEntriesByName('evenrun-drawn').length > 0);
  if (at !== null) {
    await page.evaluate((id) => {
      document.getElementById(id).scrollIntoView();
      window.evenrun.view.select('3');
    }, at);
  }
  await page.waitForTimeout(500);
  const path = join(here, `book-${width}.png`);
  await page.screenshot({ path });
  const { size } = statSync(path);
  if (size > LARGEST) throw new Error(`${path} has ${size} bytes, more than ${LARGEST}`);
  process.stdout.write(`${path}: ${size} bytes\n`);
  await context.close();
}
await browser.close();
rmSync(folder, { recursive: true });

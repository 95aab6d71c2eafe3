import { type Browser, type BrowserContextOptions, chromium, type Page } from 'playwright-core';
import type { TestContext } from 'vitest';
import { requireTool } from './tools.js';

const FLAGS = [
  '--no-sandbox',
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  // WebGL without a graphics card: the same picture on every machine
  '--use-gl=angle',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
] as const;

/** A Chromium without a window and with a profile of its own; where there is none the test is skipped, on CI it fails. */
export const openBrowser = (context: Pick<TestContext, 'skip'>): Promise<Browser> =>
  chromium.launch({ executablePath: requireTool('chromium', context), headless: true, args: [...FLAGS] });

/** A page of a file, and what went wrong in it. */
export interface OpenPage {
  readonly page: Page;
  /** Errors in the console, errors thrown, and every address asked for that is no file and no data. */
  readonly faults: string[];
}

/** Opens a file from disk with the network taken away. */
export async function openFile(browser: Browser, path: string, options: BrowserContextOptions = {}): Promise<OpenPage> {
  const context = await browser.newContext({ viewport: { width: 1440, height: 1000 }, offline: true, ...options });
  const page = await context.newPage();
  const faults: string[] = [];
  page.on('console', (m) => m.type() === 'error' && faults.push(m.text()));
  page.on('pageerror', (e) => faults.push(String(e)));
  page.on('dialog', (d) => {
    faults.push(`dialog: ${d.message()}`);
    void d.dismiss();
  });
  page.on('request', (r) => /^(file|data|blob):/.test(r.url()) || faults.push(`asked for ${r.url()}`));
  await page.goto(`file://${path}`);
  return { page, faults };
}

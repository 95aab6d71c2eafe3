import {
  chmodSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { savePlan, textHash } from '../../../src/cli/watch/save-plan.js';

let folder: string;
let plan: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'evenrun-save-'));
  plan = join(folder, 'plan.yaml');
  writeFileSync(plan, 'one\n');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const read = (name: string): string => readFileSync(join(folder, name), 'utf8');

describe('a plan written over its earlier version', () => {
  it('leaves that beside it, and nothing else', async () => {
    chmodSync(plan, 0o640);
    expect(await savePlan(plan, textHash('one\n'), 'two\n')).toEqual({ ok: true, backup: 'plan.yaml.bak' });
    expect([read('plan.yaml'), read('plan.yaml.bak')]).toEqual(['two\n', 'one\n']);
    expect(readdirSync(folder).sort()).toEqual(['plan.yaml', 'plan.yaml.bak']);
    expect(statSync(plan).mode & 0o777).toBe(0o640);
    await savePlan(plan, textHash('two\n'), 'three\n');
    expect([read('plan.yaml'), read('plan.yaml.bak')]).toEqual(['three\n', 'two\n']);
  });

  it('is refused when somebody else has written it', async () => {
    const saved = await savePlan(plan, textHash('zero\n'), 'two\n');
    expect(saved).toMatchObject({ ok: false, conflict: true });
    expect(readdirSync(folder)).toEqual(['plan.yaml']);
    expect(read('plan.yaml')).toBe('one\n');
  });

  it('is written where a link points, and the link stays', async () => {
    symlinkSync(plan, join(folder, 'link.yaml'));
    expect(await savePlan(join(folder, 'link.yaml'), textHash('one\n'), 'two\n')).toMatchObject({ ok: true });
    expect(read('plan.yaml')).toBe('two\n');
    expect(readdirSync(folder).sort()).toEqual(['link.yaml', 'plan.yaml', 'plan.yaml.bak']);
  });

  it('that is gone is told in words', async () => {
    rmSync(plan);
    const saved = await savePlan(plan, textHash('one\n'), 'two\n');
    expect(saved).toMatchObject({ ok: false, conflict: false });
    expect(saved.ok || saved.words).toMatch(/no such file or folder; nothing was written$/);
    expect(readdirSync(folder)).toEqual([]);
  });
});

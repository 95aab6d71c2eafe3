import { spawnSync } from 'node:child_process';
import { chmodSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';

const AUDIT = fileURLToPath(new URL('../../.ci/audit.mjs', import.meta.url));
const folder = mkdtempSync(join(tmpdir(), 'evenrun-audit-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Runs the check with an npm that answers with this text and code. */
function auditWith(answer: string, code: number): { code: number | null; told: string } {
  writeFileSync(join(folder, 'answer.json'), answer);
  const npm = join(folder, 'npm');
  writeFileSync(npm, `#!/bin/sh\ncat '${join(folder, 'answer.json')}'\nexit ${code}\n`);
  chmodSync(npm, 0o755);
  const ran = spawnSync(process.execPath, [AUDIT], {
    encoding: 'utf8',
    env: { ...process.env, PATH: `${folder}:${process.env.PATH}` },
  });
  return { code: ran.status, told: ran.stdout + ran.stderr };
}

const report = (...levels: string[]): string =>
  JSON.stringify({
    auditReportVersion: 2,
    vulnerabilities: Object.fromEntries(
      levels.map((severity, i) => [
        `package-${i}`,
        { name: `package-${i}`, severity, range: '<2.0.0', via: [{ title: 'reads too much' }, 'other'] },
      ]),
    ),
    metadata: { dependencies: { total: 160 } },
  });

describe('the check for advisories', () => {
  it.each(['high', 'critical'])('fails on one of level %s and names the package', (level) => {
    const { code, told } = auditWith(report('moderate', level), 1);
    expect(code).toBe(1);
    expect(told).toContain(`${level}: package-1 <2.0.0: reads too much; by way of other`);
    expect(told).not.toContain('package-0');
    expect(told).toContain('ADVISORIES: 1');
  });

  it('passes when there is none, or none so high', () => {
    expect(auditWith(report(), 0)).toMatchObject({ code: 0, told: expect.stringContaining('none of level high') });
    expect(auditWith(report('low', 'moderate'), 0)).toMatchObject({
      code: 0,
      told: expect.stringContaining('160 packages'),
    });
  });

  it.each([
    ['404', { message: '404 Not Found - POST', statusCode: 404 }],
    ['405', { message: '405 Method Not Allowed - POST', statusCode: 405 }],
    ['a server at rest', { message: '503 Service Unavailable', statusCode: 503 }],
    [
      'no network',
      { message: 'request failed, reason: getaddrinfo ENOTFOUND registry', error: { summary: '', detail: '' } },
    ],
    ['nobody there', { message: 'request failed, reason: connect ECONNREFUSED 127.0.0.1:9', error: { summary: '' } }],
  ])('says that nothing was checked where the registry has no answer: %s', (_, answer) => {
    const { code, told } = auditWith(JSON.stringify(answer), 1);
    expect(code).toBe(0);
    expect(told).toMatch(/^NOT CHECKED for advisories/);
  });

  it.each([
    [
      'no lock file',
      JSON.stringify({ error: { code: 'ENOLOCK', summary: 'This command requires an existing lockfile.' } }),
    ],
    ['refused', JSON.stringify({ message: '401 Unauthorized', statusCode: 401 })],
    ['rubbish', 'npm is not here'],
  ])('fails on any other trouble: %s', (_, answer) => {
    expect(auditWith(answer, 1)).toMatchObject({ code: 1, told: expect.stringContaining('npm audit failed') });
  });
});

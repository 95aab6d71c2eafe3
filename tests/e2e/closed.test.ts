import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, describe, expect, it } from 'vitest';
import { TEMPLATE_FOLDER } from '../support/command.js';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));
const MAIN = join(ROOT, 'dist/cli/main.js');
const folder = mkdtempSync(join(tmpdir(), 'evenrun-closed-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Loaded before the command: whatever would reach the network, or start another program, ends the run with a word. */
const GUARD = join(folder, 'guard.mjs');
writeFileSync(
  GUARD,
  `import child from 'node:child_process';
   import dgram from 'node:dgram';
   import dns from 'node:dns';
   import net from 'node:net';
   import { syncBuiltinESMExports } from 'node:module';
   const refuse = (what) => () => { process.stderr.write('REACHED FOR ' + what); process.exit(99); };
   net.Socket.prototype.connect = refuse('a connection');
   net.Server.prototype.listen = refuse('a server');
   dns.lookup = refuse('a name');
   dgram.createSocket = refuse('a datagram');
   globalThis.fetch = refuse('fetch');
   for (const name of ['spawn', 'spawnSync', 'exec', 'execSync', 'execFile', 'execFileSync', 'fork']) child[name] = refuse(name);
   syncBuiltinESMExports();
   if (process.env.REACH) (await import('node:net')).connect(9);`,
);

const run = (args: readonly string[], flags: readonly string[] = [], env: object = {}) =>
  spawnSync(process.execPath, [...flags, '--import', GUARD, MAIN, ...args], {
    cwd: folder,
    encoding: 'utf8',
    env: { ...process.env, ...env },
  });

const plan = join(TEMPLATE_FOLDER, 'single.yaml');
const CALLS: readonly (readonly string[])[] = [
  ['templates'],
  ['schema'],
  ['guide', 'tolerances'],
  ['new', 'mine', '--template', 'single'],
  ['check', plan],
  ['measure', plan, '--blank'],
  ['sweep', plan, '--vary', 'runners.length=720'],
];

describe('a command', () => {
  it('that reaches for the network is caught by the guard of these tests', () => {
    const ran = run(['templates'], [], { REACH: '1' });
    expect([ran.status, ran.stderr]).toEqual([99, 'REACHED FOR a connection']);
  });

  it.each(CALLS.map((args) => [args[0]!, args] as const))(
    '%s neither reaches for the network nor starts a program nor runs text as code',
    (_, args) => {
      const ran = run(args, ['--disallow-code-generation-from-strings']);
      expect(ran.stderr).not.toMatch(/REACHED|EvalError/);
      expect(ran.status).toBe(0);
    },
  );

  it('build neither reaches for the network nor starts a program', () => {
    const ran = run(['build', plan, '--out', 'out']);
    expect(ran.stderr).not.toMatch(/REACHED/);
    expect(ran.status).toBe(0);
  });

  it('has no text run as code in its sources', () => {
    const files = readdirSync(join(ROOT, 'src'), { recursive: true, encoding: 'utf8' }).filter((f) =>
      f.endsWith('.ts'),
    );
    expect(files.length).toBeGreaterThan(300);
    const found = files.filter((f) =>
      /\beval\s*\(|new Function\b|\bvm\b.*from 'node:vm'|\.innerHTML\s*=[^=]*plan/.test(
        readFileSync(join(ROOT, 'src', f), 'utf8'),
      ),
    );
    expect(found).toEqual([]);
  });
});

/** Licences that let the packages be used and passed on with a program under MIT. */
const FREE = ['MIT', 'ISC', 'BSD-2-Clause', 'BSD-3-Clause', '0BSD', 'Apache-2.0'];

describe('packages', () => {
  const manifest = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
    dependencies: Record<string, string>;
    devDependencies: Record<string, string>;
  };

  it('are pinned to one version each', () => {
    for (const [name, version] of Object.entries({ ...manifest.dependencies, ...manifest.devDependencies })) {
      expect(version, name).toMatch(/^\d+\.\d+\.\d+$/);
    }
  });

  it('are each named in DEVELOPERS.md with the licence they come with', () => {
    const told = readFileSync(join(ROOT, 'DEVELOPERS.md'), 'utf8');
    for (const name of Object.keys(manifest.dependencies)) {
      const own = JSON.parse(readFileSync(join(ROOT, 'node_modules', name, 'package.json'), 'utf8')) as {
        license: string;
      };
      expect(FREE, name).toContain(own.license);
      expect(told).toMatch(new RegExp(`^\\| \`${name}\` \\| ${own.license} \\|`, 'm'));
    }
  });
});

import { spawnSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  symlinkSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import { hostname, tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { withLock } from '../../src/cli/folder-lock.js';
import { writeFolder } from '../../src/cli/write-folder.js';
import type { OutputFile } from '../../src/export/output-file.js';
import { contentOf, killAtRandom } from '../support/interrupted-writes.js';

const parent = mkdtempSync(join(tmpdir(), 'evenrun-write-'));
afterAll(() => rmSync(parent, { recursive: true, force: true }));

/** A build of some files that all say which build they are of. */
function build(of: string, count = 5, size = 10): OutputFile[] {
  const text = (path: string): string => (path === 'summary.json' ? summary : of.repeat(size));
  const paths = ['summary.json', ...Array.from({ length: count }, (_, i) => `part-${i % 3}/file-${i}.txt`)];
  const summary = JSON.stringify({ schema: 'evenrun-summary-1', name: of, files: paths.map((path) => ({ path })) });
  return paths.map((path) => ({ path, kind: 'summary', bytes: new TextEncoder().encode(text(path)) }) as OutputFile);
}

const hidden = (): string[] => readdirSync(parent).filter((n) => n.startsWith('.'));

describe('writing a folder', () => {
  it('puts back the earlier folder that a run killed between its two renames left beside', async () => {
    const folder = join(parent, 'killed');
    await writeFolder(folder, build('first'));
    writeFileSync(join(folder, 'mine.txt'), 'keep');
    renameSync(folder, join(parent, '.killed.old-0123456789ab'));
    mkdirSync(join(parent, '.killed.new-0123456789ab'));
    await writeFolder(folder, build('second'));
    expect(readFileSync(join(folder, 'mine.txt'), 'utf8')).toBe('keep');
    expect(readFileSync(join(folder, 'part-0/file-0.txt'), 'utf8')).toContain('second');
    expect(hidden()).toEqual([]);
  });

  it('removes only what has the name of a leftover', async () => {
    const folder = join(parent, 'tidy');
    mkdirSync(join(parent, '.tidy.new-notes'));
    await writeFolder(folder, build('first'));
    expect(hidden()).toEqual(['.tidy.new-notes']);
    rmSync(join(parent, '.tidy.new-notes'), { recursive: true });
  });

  it('twenty builds at once into one folder do not mix', async () => {
    const folder = join(parent, 'crowd');
    const builds = Array.from({ length: 20 }, (_, i) => build(`build ${i};`, 30));
    await Promise.all(builds.map((files) => writeFolder(folder, files)));
    const { name } = JSON.parse(readFileSync(join(folder, 'summary.json'), 'utf8')) as { name: string };
    const texts = readdirSync(folder, { recursive: true, withFileTypes: true })
      .filter((e) => e.isFile() && e.name.startsWith('file-'))
      .map((e) => readFileSync(join(e.parentPath, e.name), 'utf8'));
    expect(texts).toHaveLength(30);
    expect(new Set(texts)).toEqual(new Set([name.repeat(10)]));
    expect(hidden()).toEqual([]);
  });

  it('a pipe, a device or a huge file in place of the summary is not read: the folder is of somebody else', async () => {
    const fill: Readonly<Record<string, (path: string) => void>> = {
      pipe: (path) => void spawnSync('mkfifo', [path]),
      device: (path) => symlinkSync('/dev/zero', path),
      huge: (path) => {
        writeFileSync(path, '');
        truncateSync(path, 1_000_000_000);
      },
    };
    for (const [name, make] of Object.entries(fill)) {
      mkdirSync(join(parent, name));
      make(join(parent, name, 'summary.json'));
      await expect(writeFolder(join(parent, name), build('x')), name).rejects.toThrow(/not of an earlier build/);
      expect(readdirSync(join(parent, name))).toEqual(['summary.json']);
    }
  });

  it('a place where nothing can be made is refused in words', async () => {
    await expect(writeFolder('/proc/evenrun-out', build('x'))).rejects.toThrow(/^cannot write \/proc\/evenrun-out: /);
  });
});

describe('the lock', () => {
  const path = join(parent, '.held.lock');

  it('of a process that is gone is taken over', async () => {
    const gone = spawnSync(process.execPath, ['-e', '']).pid;
    writeFileSync(path, JSON.stringify({ pid: gone, host: hostname() }));
    expect(await withLock(path, async () => 'done')).toBe('done');
    expect(existsSync(path)).toBe(false);
  });

  it.each([
    ['a process that lives', JSON.stringify({ pid: process.pid, host: hostname() })],
    ['another machine', JSON.stringify({ pid: 1, host: `not-${hostname()}` })],
    ['nobody it can read', 'rubbish'],
  ])('of %s is waited for, then told of, and left', async (_, text) => {
    writeFileSync(path, text);
    await expect(withLock(path, async () => {}, 120)).rejects.toThrow(
      /another build.* is writing there.*remove .*\.held\.lock/,
    );
    expect(readFileSync(path, 'utf8')).toBe(text);
    rmSync(path);
  });

  it('is given back when the work fails', async () => {
    await expect(withLock(path, () => Promise.reject(new Error('no')))).rejects.toThrow('no');
    expect(existsSync(path)).toBe(false);
  });
});

describe('a write that is cut off', () => {
  const writer = join(parent, 'writer.mjs');
  const main = new URL('../../dist/cli/write-folder.js', import.meta.url).href;
  beforeAll(() => {
    writeFileSync(
      writer,
      `import { readFileSync } from 'node:fs';
       import { writeFolder } from ${JSON.stringify(main)};
       const files = JSON.parse(readFileSync(process.argv[2], 'utf8'));
       await writeFolder(process.argv[3], files.map((f) => ({ ...f, bytes: Buffer.from(f.text) })));`,
    );
    for (const of of ['a', 'b']) {
      const files = build(of, 200, 2000).map((f) => ({
        path: f.path,
        kind: f.kind,
        text: new TextDecoder().decode(f.bytes),
      }));
      writeFileSync(join(parent, `${of}.json`), JSON.stringify(files));
    }
  });
  const run = (of: string, folder: string): number => {
    const from = performance.now();
    spawnSync(process.execPath, [writer, join(parent, `${of}.json`), folder]);
    return performance.now() - from;
  };

  it('leaves the earlier folder or the new one whole, killed at 40 random moments', async () => {
    const folder = join(parent, 'cut');
    const wholes = ['a', 'b'].map((of) => {
      run(of, folder);
      return contentOf(folder);
    }) as [string, string];
    const usual = run('a', folder);
    let seed = 1;
    const random = (): number => {
      seed = (seed * 48271) % 2147483647;
      return seed / 2147483647;
    };
    const tally = await killAtRandom(
      (n) => [writer, join(parent, `${n % 2 === 0 ? 'b' : 'a'}.json`), folder],
      folder,
      wholes,
      { kills: 40, usual: 1.2 * usual, random, cwd: parent },
    );
    expect(tally).toMatchObject({ kills: 40, broken: 0 });
    run('b', folder);
    expect(contentOf(folder)).toBe(wholes[1]);
    expect(hidden()).toEqual([]);
  });

  /** Runs a shell script where it may mount disks that only it sees; `$1` is an empty folder, `$write FILE FOLDER` writes a build. */
  function amongOwnDisks(script: string, context: { skip: (reason: string) => void }): string {
    const at = mkdtempSync(join(parent, 'disks-'));
    const small = build('small', 20, 100).map((f) => ({ ...f, text: new TextDecoder().decode(f.bytes) }));
    writeFileSync(join(parent, 'small.json'), JSON.stringify(small));
    writeFileSync(join(parent, 'large.json'), JSON.stringify([{ ...small[0], text: 'x'.repeat(3_000_000) }]));
    const head = `write="${process.execPath} ${writer}"; content() { find "$1" -type f | sort | xargs cat | cksum; }\n`;
    const run = (text: string) =>
      spawnSync('unshare', ['-rm', 'sh', '-c', text, 'sh', at, parent], { encoding: 'utf8' });
    if (run('mount -t tmpfs -o size=1m none "$1"').status !== 0) context.skip('this system lets no test mount a disk');
    const { stdout, stderr } = run(head + script);
    return stdout + stderr;
  }

  it('on a disk that is full says so, and the earlier folder stands', (context) => {
    const said = amongOwnDisks(
      `mount -t tmpfs -o size=1m none "$1"; $write "$2/small.json" "$1/out"; before=$(content "$1/out")
       $write "$2/large.json" "$1/out"; [ "$before" = "$(content "$1/out")" ] && echo stands; ls -A "$1"`,
      context,
    );
    expect(said).toMatch(/^stands\nout\n/);
    expect(said).toMatch(/cannot write .*out: no space left on the disk/);
  });

  it('on a disk that is read-only says so, and the earlier folder stands', (context) => {
    const said = amongOwnDisks(
      `mount -t tmpfs -o size=1m none "$1"; $write "$2/small.json" "$1/out"; before=$(content "$1/out")
       mount -o remount,ro "$1"; $write "$2/small.json" "$1/out"
       [ "$before" = "$(content "$1/out")" ] && echo stands`,
      context,
    );
    expect(said).toMatch(/^stands\n/);
    expect(said).toMatch(/cannot write .*out: the disk is read-only/);
  });

  it('into a folder that is a disk of its own, which cannot be replaced, says so', (context) => {
    const said = amongOwnDisks(
      `mkdir "$1/out"; mount -t tmpfs -o size=1m none "$1/out"; $write "$2/small.json" "$1/out"; ls -A "$1/out" "$1"`,
      context,
    );
    expect(said).toMatch(/cannot write .*out: it is in use: a disk is mounted there/);
    expect(said).not.toMatch(/summary\.json|\.new-|\.old-/);
  });

  it('for want of room says so, and the earlier folder stands', () => {
    const folder = join(parent, 'full');
    run('a', folder);
    const before = contentOf(folder);
    const big = [{ path: 'summary.json', kind: 'summary', text: 'x'.repeat(3_000_000) }];
    writeFileSync(join(parent, 'big.json'), JSON.stringify(big));
    // a limit on the size of files stands in for the full disk: the same write fails in the same place
    const ran = spawnSync(
      'bash',
      [
        '-c',
        `trap '' XFSZ; ulimit -f 1000; exec "$0" "$@"`,
        process.execPath,
        writer,
        join(parent, 'big.json'),
        folder,
      ],
      { encoding: 'utf8' },
    );
    expect(ran.status).not.toBe(0);
    expect(ran.stderr).toMatch(/cannot write .*full: no file may become so large here/);
    expect(contentOf(folder)).toBe(before);
    expect(hidden()).toEqual([]);
  });
});

// Builds the first two starter plans into this folder, or into one named on the command line.
// Printed parts, build plates, the book and the whole header are many or large: their SHA-256 sums stand for them (SHA256SUMS in their folder); everything
// else is kept as written.
import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { cpSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const here = fileURLToPath(new URL('.', import.meta.url));
const root = join(here, '..');
const target = process.argv[2] ?? here;
const temporary = mkdtempSync(join(tmpdir(), 'evenrun-examples-'));

for (const name of ['inline-four', 'inline-six-turbo']) {
  const built = join(temporary, name);
  const args = [join(root, 'dist/cli/main.js'), 'build', join(root, `templates/${name}.yaml`), '--out', built];
  const ran = spawnSync(process.execPath, args, { stdio: ['ignore', 'ignore', 'inherit'] });
  if (ran.status !== 0) throw new Error(`building ${name} exited with ${ran.status}`);
  for (const folder of ['jigs', 'print']) sumUp(join(built, folder), /\.(stl|3mf)$/);
  sumUp(built, /^(book\.html|header\.stl)$/);
  rmSync(join(target, name), { recursive: true, force: true });
  cpSync(built, join(target, name), { recursive: true });
}
rmSync(temporary, { recursive: true });

/** Puts the sums of some files of a folder in their place. */
function sumUp(folder, names) {
  const files = readdirSync(folder)
    .filter((file) => names.test(file))
    .sort();
  const sums = files.map((file) => {
    const sum = createHash('sha256').update(readFileSync(join(folder, file))).digest('hex');
    rmSync(join(folder, file));
    return `${sum}  ${file}\n`;
  });
  writeFileSync(join(folder, 'SHA256SUMS'), sums.join(''));
}

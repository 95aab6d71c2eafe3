import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const WRITER = `
import sys, json, ezdxf
job = json.load(open(sys.argv[1]))
doc = ezdxf.new(job['version'])
if job['units'] is not None: doc.header['$INSUNITS'] = job['units']
m = doc.modelspace()
below = {'extrusion': (0, 0, -1)}
exec(job['code'])
doc.saveas(sys.argv[2])
`;

export type DxfVersion = 'R12' | 'R2000' | 'R2010' | 'R2018';

/** The bytes of a drawing made by ezdxf under the given Python; `code` draws into the model space `m` of `doc`. */
export function drawnByEzdxf(
  python: string,
  code: string,
  version: DxfVersion = 'R2000',
  units: number | null = 4,
): Uint8Array {
  const folder = mkdtempSync(join(tmpdir(), 'evenrun-drawn-'));
  try {
    const [job, file] = [join(folder, 'job.json'), join(folder, 'drawing.dxf')];
    writeFileSync(job, JSON.stringify({ code, version, units }));
    const run = spawnSync(python, ['-c', WRITER, job, file], { encoding: 'utf8' });
    if (run.status !== 0) throw new Error(`ezdxf could not draw: ${run.stderr}`);
    return readFileSync(file);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

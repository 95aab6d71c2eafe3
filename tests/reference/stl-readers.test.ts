import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { stlFiles } from '../../src/export/print/stl.js';
import { collectorAids } from '../../src/parts/collector/aids.js';
import { collectorOf } from '../../src/parts/collector/collector.js';
import { flangesOf } from '../../src/parts/flange/flange.js';
import { benchJigs } from '../../src/parts/jigs/bench/bench.js';
import { mockUpOf } from '../../src/parts/jigs/jigs.js';
import type { SolidPart } from '../../src/parts/part.js';
import { withBench } from '../support/bench-plan.js';
import { JIG, mergePlan, SLIP, TUBE, VENTURI } from '../support/merge-plan.js';
import { requireTool } from '../support/tools.js';
import { twin } from '../support/twin.js';

/** Readers of STL that are not ours: what they say of every file counts. */
describe('STL as others read it', () => {
  let folder = '';
  let parts: readonly SolidPart[] = [];
  const pathOf = (part: SolidPart) => join(folder, `${part.name}.stl`);

  beforeAll(() => {
    const { plan, primaries } = twin();
    const flanges = flangesOf(plan);
    const formed = mergePlan(4, { outlet: VENTURI, slip: SLIP, centre: 'spike' });
    const branch = { od: 30, wall: 1.6, angle: 0.9, at: 300, clocking: 0.4, length: 80, on: 'tail' } as const;
    const collectors = [
      collectorOf(plan.collectors[0]!, plan.tube, plan.jig.bed),
      collectorOf({ ...formed, branch, outlet: { ...VENTURI, tail: 120 } }, TUBE, JIG.bed, 'formed'),
    ];
    parts = [
      ...collectors.map((c) => c.part),
      ...collectors.flatMap((c) => collectorAids(c, JIG)),
      ...mockUpOf({ plan, primaries, secondaries: [], flanges }).parts,
      ...benchJigs(withBench(plan), primaries, []).parts,
    ];
    folder = mkdtempSync(join(tmpdir(), 'stl-'));
    for (const [i, file] of stlFiles(parts).entries()) writeFileSync(pathOf(parts[i]!), file.bytes);
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  it('admesh finds no disconnected facet, one part, nothing to mend', (context) => {
    const admesh = requireTool('admesh', context);
    for (const part of parts) {
      const { stdout } = spawnSync(admesh, [pathOf(part)], { encoding: 'utf8' });
      const figures = (label: string) => new RegExp(`${label} *: *([\\d.]+)`).exec(stdout)?.[1];
      for (const label of [
        'Total disconnected facets',
        'Degenerate facets',
        'Edges fixed',
        'Facets removed',
        'Facets added',
        'Facets reversed',
        'Backwards edges',
      ]) {
        // 'Normals fixed' is left out: it compares normals of needles in 32-bit arithmetic, and slicers take theirs from the corners
        expect(figures(label), `${part.name}: ${label}`).toBe('0');
      }
      expect(figures('Number of parts'), part.name).toBe('1');
    }
  });

  it('a slicer finds every part manifold, one piece, and of our size', (context) => {
    const slicer = requireTool('prusa-slicer', context);
    const { stdout } = spawnSync(slicer, ['--info', ...parts.map(pathOf)], { encoding: 'utf8' });
    const told = stdout.split(/^\[(?=[^\]\n]*\.stl\])/m).slice(1);
    expect(told).toHaveLength(parts.length);
    for (const part of parts) {
      const text = told.find((t) => t.startsWith(`${part.name}.stl]`))!;
      const value = (key: string) => new RegExp(`^${key} = *(\\S+)`, 'm').exec(text)?.[1];
      expect(value('manifold'), part.name).toBe('yes');
      expect(value('number_of_parts'), part.name).toBe('1');
      for (const [i, key] of ['size_x', 'size_y', 'size_z'].entries()) {
        expect(Number(value(key)), `${part.name} ${key}`).toBeCloseTo(part.size[i]!, 2);
      }
    }
  });
});

import { spawnSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';
import { USUAL_DXF } from '../../src/export/dxf/drawing.js';
import { PATTERN_LAYERS, patternDxf } from '../../src/export/dxf/pattern-dxf.js';
import { patternSvg } from '../../src/export/svg/pattern-svg.js';
import { outlineArea } from '../../src/geometry/outline/measure.js';
import { inletTube } from '../../src/params/collector/inlet-tube.js';
import { collectorGeometry } from '../../src/parts/collector/merge-geometry.js';
import { cutContour } from '../../src/parts/patterns/cut-contour.js';
import { fabricatedPatterns } from '../../src/parts/patterns/fabricated.js';
import type { Pattern } from '../../src/parts/patterns/pattern.js';
import { patternsOf } from '../../src/parts/patterns/patterns.js';
import { measureDxfs } from '../support/measure-dxf.js';
import { readDxf } from '../support/read-dxf.js';
import { starterPlan } from '../support/starter.js';
import { requireTool } from '../support/tools.js';

const plan = starterPlan('v8-bank');
const patterns: readonly Pattern[] = [
  ...patternsOf(
    plan,
    plan.collectors.map((c) => collectorGeometry(c, inletTube(plan, c))),
  ),
  ...fabricatedPatterns(
    { name: 'gate <1>', count: 1, kind: 'saddle', od: 44, wall: 1.5, hostOd: 60, hostWall: 1.5, angle: 1, offset: 2 },
    plan.patterns,
  ),
];

describe.each([
  { units: 'mm', version: 'r2007', curves: 'polylines' },
  { units: 'in', version: 'r12', curves: 'lines_and_arcs' },
  { units: 'mm', version: 'r12', curves: 'polylines' },
] as const)('as DXF in $units, $version, $curves', (options) => {
  test('audits clean, and what is cut is closed and of its area', (context) => {
    const files = patterns.map((p) => patternDxf(p, options));
    const reads = measureDxfs(
      requireTool('ezdxf', context),
      files.map((f) => f.bytes),
    );
    reads.forEach((read, i) => {
      const p = patterns[i]!;
      expect(files[i]).toMatchObject({ path: `patterns/${p.name}.dxf`, kind: 'pattern' });
      expect({ errors: read.errors, fixes: read.fixes }).toEqual({ errors: [], fixes: [] });
      expect(read.insunits).toBe(options.units === 'mm' ? 4 : 1);
      const unit = options.units === 'mm' ? 1 : 25.4 ** 2;
      const own = { CUT_INNER: p.holes.map(outlineArea), CUT_OUTER: [outlineArea(cutContour(p))] };
      for (const [layer, areas] of Object.entries(own)) {
        const found = read.areas[layer] ?? [];
        expect(found).toHaveLength(areas.length);
        found.forEach((a, k) => {
          expect(Math.abs((Math.abs(a) * unit) / areas[k]! - 1)).toBeLessThan(1e-5);
        });
        expect(read.open[layer] ?? 0).toBe(0);
      }
      expect(read.open.REFERENCE).toBe(1);
      expect(Object.entries(read.types).filter(([, types]) => types.includes('TEXT'))).toEqual([
        ['NOTES', expect.anything()],
      ]);
    });
  });
});

test('a line of 100 mm stands on a layer that is not cut', (context) => {
  const read = readDxf(requireTool('ezdxf', context), patternDxf(patterns[0]!).bytes);
  expect(read.layers).toEqual(expect.arrayContaining(PATTERN_LAYERS.map((l) => l.name)));
  const rulers = read.entities.filter((e) => e.layer === 'NOTES' && e.type === 'LINE');
  expect(rulers.some((e) => Math.abs(e.length! - 100) < 1e-9)).toBe(true);
});

describe.each(patterns.map((p) => [p.name, p] as const))('%s', (_, p) => {
  test('as SVG: as large in mm as its view box, with a ruler of 100 mm, its name and the words to print it true', () => {
    const file = patternSvg(p);
    expect(file).toMatchObject({ path: `patterns/${p.name}.svg`, kind: 'pattern' });
    const svg = Buffer.from(file.bytes).toString();
    const [, width, height, box] = /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="([^"]+)"/.exec(svg)!;
    expect(box!.split(' ').slice(2)).toEqual([width, height]);
    expect(svg).toContain('Print at 100 %');
    expect(svg).toMatch(/class="ruler" d="M \S+ \S+ h 100 /);
    expect(svg).not.toMatch(/NaN|undefined|Infinity|e-\d|<1>/);
    for (const words of p.lines.map((l) => l.label).filter((l) => l.includes(':')))
      expect(svg).toContain(words.split(':')[0]!);
  });

  test('another program draws it at true size', (context) => {
    const svg = Buffer.from(patternSvg(p).bytes);
    const [, width, height] = /width="([\d.]+)mm" height="([\d.]+)mm"/.exec(svg.toString())!;
    const run = spawnSync(requireTool('rsvg-convert', context), ['--dpi-x', '254', '--dpi-y', '254'], { input: svg });
    expect(run.stderr.toString()).toBe('');
    // Width and height stand at bytes 16 and 20 of a PNG: 10 pixels a millimetre.
    expect(Math.abs(run.stdout.readUInt32BE(16) / 10 - Number(width))).toBeLessThan(0.2);
    expect(Math.abs(run.stdout.readUInt32BE(20) / 10 - Number(height))).toBeLessThan(0.2);
  });
});

test('the same pattern makes the same bytes', () => {
  for (const p of patterns) {
    expect(patternDxf(p, USUAL_DXF).bytes).toEqual(patternDxf(p, USUAL_DXF).bytes);
    expect(patternSvg(p).bytes).toEqual(patternSvg(p).bytes);
  }
});

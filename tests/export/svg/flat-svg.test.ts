import { spawnSync } from 'node:child_process';
import { describe, expect, test } from 'vitest';
import { flatSvg } from '../../../src/export/svg/flat-svg.js';
import { svgPath } from '../../../src/export/svg/svg-path.js';
import { circleOutline, rectangleOutline } from '../../../src/geometry/outline/make.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { flatFlange } from '../../../src/parts/plates/flat-flange.js';
import { inlineFour, single, veeBank } from '../../support/plan-fixture.js';
import { requireTool } from '../../support/tools.js';

const svgOf = (plan: Parameters<typeof flangesOf>[0]): string =>
  Buffer.from(flatSvg(flatFlange(flangesOf(plan)[0]!)).bytes).toString();

test('arcs stay arcs, y runs down the page and counter-clockwise keeps its sense', () => {
  expect(svgPath(circleOutline([10, 5], 6))).toBe('M 13 -5 A 3 3 0 0 0 7 -5 A 3 3 0 0 0 13 -5 Z');
  expect(svgPath(rectangleOutline(44, 36, 18)).match(/A /g)).toHaveLength(4);
});

describe.each([
  ['inline four', inlineFour()],
  ['vee bank', veeBank()],
  ['single', single()],
] as const)('%s', (_, plan) => {
  const part = flangesOf(plan)[0]!;
  const svg = svgOf(plan);

  test('is drawn in mm with its sizes', () => {
    expect(flatSvg(flatFlange(part))).toMatchObject({ path: 'flange.svg', kind: 'picture' });
    const [, width, height, box] = /width="([\d.]+)mm" height="([\d.]+)mm" viewBox="([^"]+)"/.exec(svg)!;
    expect(box!.split(' ').slice(2)).toEqual([width, height]);
    expect(svg).toContain(`>${part.size[0].toFixed(1)}</text>`);
    expect(svg).toContain(`>${part.size[1].toFixed(1)}</text>`);
    expect(svg).not.toMatch(/NaN|undefined|Infinity|e-\d/);
  });

  test('what is cut and what is drilled differ by more than colour', () => {
    const dashes = ['outer', 'inner', 'drill'].map(
      (c) => new RegExp(`\\.${c}\\{[^}]*\\}`).exec(svg)![0].match(/dasharray:[^};]*/)?.[0] ?? 'solid',
    );
    expect(new Set(dashes).size).toBe(3);
  });

  test('another program can draw it', (context) => {
    const run = spawnSync(requireTool('rsvg-convert', context), ['-w', '300'], { input: svg });
    expect(run.stderr.toString()).toBe('');
    expect(run.stdout.subarray(1, 4).toString()).toBe('PNG');
  });
});

test('names are escaped', () => {
  expect(svgOf({ ...single(), name: 'a < b & "c"' })).toContain('a &lt; b &amp; &quot;c&quot;');
});

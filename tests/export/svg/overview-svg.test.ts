import { spawnSync } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { overviewSvg } from '../../../src/export/svg/overview-svg.js';
import { frameAlong } from '../../../src/geometry/frame.js';
import type { Mesh } from '../../../src/geometry/mesh/mesh.js';
import { inletTube } from '../../../src/params/collector/inlet-tube.js';
import type { KeepOut, Plan } from '../../../src/params/plan.js';
import { collectorGeometry } from '../../../src/parts/collector/merge-geometry.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { steppedPair } from '../../support/stepped-pair.js';
import { requireTool } from '../../support/tools.js';

const pair = steppedPair();

function drawn(change: Partial<Plan> = {}): string {
  const plan = { ...pair.plan, ...change };
  const collectors = plan.collectors.map((c) => collectorGeometry(c, inletTube(plan, c)));
  const scene = { ...pair, plan, collectors, flanges: flangesOf(plan), verdict: 'all checks hold.' };
  return new TextDecoder().decode(overviewSvg(scene).bytes);
}

const common = { clearance: 5, heat: false };
const widths = (svg: string): Set<number> =>
  new Set([...svg.matchAll(/stroke-width="([\d.]+)"/g)].map((m) => Number(m[1])));
const size = (svg: string): number[] => /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg)!.slice(1).map(Number);
const count = (svg: string, text: string): number => svg.split(text).length - 1;

describe('the overview', () => {
  it('is read by a program that is not ours', (context) => {
    const rsvg = requireTool('rsvg-convert', context);
    const { status, stdout, stderr } = spawnSync(rsvg, ['-w', '900'], { input: drawn() });
    expect(stderr.toString()).toBe('');
    expect(status).toBe(0);
    expect(stdout.subarray(1, 4).toString()).toBe('PNG');
  });

  it('draws every tube as wide as it is there, and names secondaries by the collector they come from', () => {
    const svg = drawn();
    for (const od of [42.4, 45, 48.3]) expect(widths(svg), `${od}`).toContain(od);
    expect(count(svg, '>Y merge</text>')).toBe(3);
    expect(widths(drawn({ secondaries: pair.plan.secondaries }))).toEqual(widths(svg));
  });

  it('puts numbers that a view lays on each other into one label', () => {
    const numbers = [...drawn().matchAll(/font-size="22"[^>]*>([^<]+)</g)].map((m) => m[1]);
    // from the front, from the side, from above: beside each other on the head, so at one place from the side
    expect(numbers).toEqual(['1', '2', '1 2', '1', '2']);
  });

  it('draws a plane as a line where it is seen edge-on and cuts the view, with its name', () => {
    const ground = (y: number): KeepOut => ({
      ...common,
      name: 'ground',
      kind: 'half-space',
      point: [0, y, 0],
      normal: [0, 1, 0],
    });
    expect(count(drawn({ keepOuts: [ground(-300)] }), '>ground</text>')).toBe(2); // front and side, not from above
    expect(count(drawn({ keepOuts: [ground(-3000)] }), '>ground</text>')).toBe(0);
  });

  it('draws a capsule with round ends, as long as it is', () => {
    const hose: KeepOut = {
      ...common,
      name: 'hose',
      kind: 'capsule',
      from: [0, 60, 100],
      to: [80, 60, 100],
      diameter: 20,
    };
    const svg = drawn({ keepOuts: [hose] });
    expect(count(svg, '>hose</text>')).toBe(3);
    const outline = /<path d="M([^"]+)Z" fill="#b23a48"/
      .exec(svg)![1]!
      .split('L')
      .map((p) => p.split(' ').map(Number));
    const extent = (k: 0 | 1) => Math.max(...outline.map((p) => p[k]!)) - Math.min(...outline.map((p) => p[k]!));
    expect(extent(0)).toBeCloseTo(100, 0);
    expect(extent(1)).toBeCloseTo(20, 0);
  });

  it('shows a scan by its outline with its name, and of a large one no more than lies near the header', () => {
    const scan = (reach: number): KeepOut => ({
      ...common,
      name: 'bay',
      kind: 'mesh',
      file: 'bay.stl',
      mesh: sheet(reach),
    });
    const [alone, near, far] = [drawn(), drawn({ keepOuts: [scan(300)] }), drawn({ keepOuts: [scan(5000)] })];
    expect(count(near, '>bay</text>')).toBe(3);
    for (const svg of [near, far]) {
      // 120 mm to either side of each of the three views
      for (const [k, l] of size(svg).entries()) expect(l - size(alone)[k]!).toBeLessThanOrEqual(3 * 240);
    }
    expect(near.length - alone.length).toBeLessThan(20_000); // points capped
  });

  it('dots the room of tools without a name', () => {
    const access = [{ name: 'plug of cylinder 1', frame: frameAlong([0, 60, 0], [0, 0, 1]), diameter: 26, length: 90 }];
    const svg = drawn({ access });
    expect(count(svg, 'stroke-dasharray="1 3"')).toBe(3);
    expect(svg).not.toContain('plug of cylinder 1');
  });

  it('gives the same bytes for the same plan', () => {
    expect(drawn()).toBe(drawn());
  });
});

/** A wavy sheet of 20,000 points, `reach` mm to either side. */
function sheet(reach: number): Mesh {
  const positions = new Float64Array(60_000);
  for (let i = 0; i < 20_000; i++) {
    const [u, v] = [(i % 100) / 99, Math.floor(i / 100) / 199];
    positions.set([(2 * u - 1) * reach, (2 * v - 1) * reach, 60 + 10 * Math.sin(9 * u)], 3 * i);
  }
  return { positions, triangles: Uint32Array.from([0, 1, 100]) };
}

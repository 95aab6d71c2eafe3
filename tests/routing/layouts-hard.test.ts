import { describe, expect, it } from 'vitest';
import { bendTable } from '../../src/export/csv/bend-table.js';
import { degrees } from '../../src/geometry/angle.js';
import { endOf, startOf } from '../../src/geometry/path/path.js';
import { distance, dot } from '../../src/geometry/vec3.js';
import type { Plan } from '../../src/params/plan.js';
import { shortestRoute } from '../../src/routing/shortest.js';
import { type RouteSet, solve } from '../../src/routing/solve.js';
import { tubesFromBendTable } from '../support/bend-table-length.js';
import { denseTube, pointAt } from '../support/dense-tube.js';
import { HARD_LAYOUTS } from '../support/hard-layouts.js';
import { planOfFile } from '../support/layouts.js';
import { routeFaults } from '../support/route-faults.js';
import { wallHeight, wavyWall } from '../support/wavy-wall.js';

/** What a layout must show beside routes that hold, by its name. */
const SHOWS: Readonly<Record<string, (set: RouteSet, plan: Plan) => void>> = {
  'short target close to the shortest': ({ problem, primaries }) => {
    const shortest = Math.max(...problem.runners.map((_, i) => shortestRoute(problem, i)));
    expect(primaries[0]!.length).toBeLessThan(1.04 * shortest);
  },
  'parallel inlets in a wide ring': ({ problem }) => {
    const [a, b] = problem.collectors[0]!.inlets;
    expect(degrees(Math.acos(dot(a!.z, b!.z)))).toBeLessThan(0.5);
  },
  'firing order against the geometry': ({ primaries }, plan) => {
    const at = [...primaries].sort((a, b) => a.inlet - b.inlet).map((p) => p.cylinder);
    const fired = plan.engine.firingOrder;
    at.forEach((cylinder, i) => {
      const next = at[(i + 1) % at.length]!;
      const steps = Math.abs(fired.indexOf(cylinder) - fired.indexOf(next));
      expect([1, fired.length - 1]).toContain(steps);
    });
  },
  'two radii where the large one does not fit': ({ primaries }) => {
    // the wall leaves the first bend no room for the larger radius
    for (const p of primaries) expect(p.polygon.clr[0]).toBe(48);
  },
  'collector that faces the head: every primary turns back': ({ primaries }) => {
    for (const p of primaries) {
      const angles = p.path.segments.map((s) => (s.kind === 'bend' ? degrees(s.angle) : 0));
      expect(angles.reduce((sum, a) => sum + a, 0)).toBeGreaterThan(150);
    }
  },
  'primaries that grow twice': ({ primaries }, plan) => {
    for (const p of primaries) {
      expect(p.sections.map((s) => s.od)).toEqual([40, 42.4, 45]);
      plan.tube.steps.forEach((s, i) => {
        expect(Math.abs(p.sections[i + 1]!.from - s.at)).toBeLessThanOrEqual(s.within + 1e-6);
      });
    }
  },
  '4-2-1': ({ problem, secondaries }, plan) => {
    expect(secondaries).toHaveLength(2);
    for (const s of secondaries) {
      const runner = problem.runners.find((r) => r.id === s.id)!;
      const inlet = problem.collectors[s.collector]!.inlets[s.inlet - 1]!;
      expect(Math.abs(s.length - plan.secondaries!.length)).toBeLessThan(1e-9);
      expect(distance(startOf(s.path).point, runner.start.origin)).toBeLessThan(1e-9);
      expect(distance(endOf(s.path).point, inlet.origin)).toBeLessThan(1e-9);
      expect(dot(endOf(s.path).direction, inlet.z)).toBeCloseTo(1, 12);
    }
  },
  'a scanned wall in front': ({ primaries }) => {
    let nearest = Number.POSITIVE_INFINITY;
    for (const p of primaries) {
      const tube = denseTube(p.polygon, 4);
      for (let i = 0; i < tube.run.length; i++) nearest = Math.min(nearest, heightBelowWall(pointAt(tube, i)));
    }
    // measured along z, which is never less than the gap
    expect(nearest - 42.4 / 2).toBeGreaterThan(12);
  },
};

const heightBelowWall = ([x, y, z]: readonly [number, number, number]): number => wallHeight(x, y) - z;

describe('hard layouts', () => {
  const scan = wavyWall();

  it.each(HARD_LAYOUTS)('$name', ({ name, file }) => {
    const plan = planOfFile(file, name, scan);
    const solution = solve(plan);
    if (!solution.ok) throw new Error(JSON.stringify(solution.miss));
    const set = solution.sets[0]!;
    const table = new TextDecoder().decode(bendTable(set.primaries).bytes);
    expect(routeFaults(plan, tubesFromBendTable(table))).toEqual([]);
    for (const g of set.gaps) expect(g.value, g.place).toBeGreaterThanOrEqual(g.limit - 0.01);
    SHOWS[name]?.(set, plan);
  });

  it('has a layout for everything it shows', () => {
    const names = HARD_LAYOUTS.map((l) => l.name);
    for (const name of Object.keys(SHOWS)) expect(names).toContain(name);
  });
});

import { describe, expect, test } from 'vitest';
import { outlineArea } from '../../../src/geometry/outline/measure.js';
import { flangesOf } from '../../../src/parts/flange/flange.js';
import { flatFlange } from '../../../src/parts/plates/flat-flange.js';
import { flatPartsOf } from '../../../src/parts/plates/flat-parts.js';
import { gasketOf } from '../../../src/parts/plates/gasket.js';
import { BASE, planFrom } from '../../params/base-plan.js';
import { PLATES } from '../../params/plate-plan.js';
import { clipperOffsetArea } from '../../support/clipper.js';
import { inlineFour } from '../../support/plan-fixture.js';

const GASKETS = { flanges: true, plates: true, grow: 1.5, thickness: 1.5, material: 'graphite sheet' };

test('a gasket has the outline and holes of its flange, and openings grown as Clipper grows them', async () => {
  const part = flatFlange(flangesOf(inlineFour())[0]!);
  const gasket = gasketOf(part, GASKETS);
  expect(gasket.region.outer).toEqual(part.region.outer);
  expect(gasket.region.holes.map((h) => h.diameter)).toEqual(part.region.holes.map((h) => h.diameter));
  expect(gasket.region.holes.some((h) => h.drill)).toBe(false);
  expect(gasket.path).toBe('gasket-flange');
  expect(gasket.region.openings.map((o) => o.place)).toEqual(part.region.openings.map((o) => o.place));
  for (const [i, o] of gasket.region.openings.entries()) {
    const byClipper = await clipperOffsetArea(part.region.openings[i]!.outline, 1.5);
    expect(Math.abs(outlineArea(o.outline) / byClipper - 1)).toBeLessThan(1e-5);
  }
});

describe('of the plates of a plan', () => {
  const withGaskets = (grow: number) => {
    const plan = planFrom(`${BASE}${PLATES}gaskets: { grow: ${grow} }\n`);
    return flatPartsOf(plan, flangesOf(plan)).all.filter((p) => p.kind === 'gasket');
  };

  test('every bolted one, the ring and the sleeve none', () => {
    expect(withGaskets(1).map((g) => g.path)).toEqual([
      'gasket-flange',
      'plates/gasket-divided-inlet',
      'plates/gasket-outlet',
      'plates/gasket-downpipe',
      'plates/gasket-wheel',
    ]);
  });

  test('openings that meet over a thin web become one, and the note says so', () => {
    const joined = withGaskets(4).find((g) => g.path.endsWith('divided-inlet'))!;
    expect(joined.region.openings.map((o) => o.place)).toEqual(['left opening and right opening']);
    expect(joined.notes.join()).toContain('grew together');
    expect(withGaskets(1).find((g) => g.path.endsWith('divided-inlet'))!.region.openings).toHaveLength(2);
  });

  test('a plate may stay without', () => {
    const text = `${BASE}${PLATES.replace('bolt_spacing: 96', 'bolt_spacing: 96, gasket: false')}gaskets: { flanges: false }\n`;
    const plan = planFrom(text);
    const paths = flatPartsOf(plan, flangesOf(plan))
      .all.filter((p) => p.kind === 'gasket')
      .map((p) => p.path);
    expect(paths).not.toContain('plates/gasket-downpipe');
    expect(paths).not.toContain('gasket-flange');
  });
});

import { describe, expect, it } from 'vitest';
import type { CheckContext } from '../../src/checks/context.js';
import { jigsPrint } from '../../src/checks/jig-print.js';
import { WORLD } from '../../src/geometry/frame.js';
import { type Solid, union } from '../../src/geometry/solid/solid.js';
import { box } from '../../src/geometry/solid/solid-shapes.js';
import { printedPart } from '../../src/parts/printed-part.js';
import { twin } from '../support/twin.js';

const { plan } = twin();

const findings = (solid: Solid) => {
  const part = printedPart(
    { name: 'part', kind: 'port-plug', title: 'part', solid, at: WORLD, up: WORLD },
    plan.jig.bed,
  );
  const [overhang, foot] = jigsPrint({ plan, jigs: [part] } as unknown as CheckContext);
  return { overhang: overhang!, foot: foot! };
};

const table = (leg: number, top: number): Solid =>
  union(box([-leg, -leg, 0], [leg, leg, 20]), box([-top, -top, 19], [top, top, 22]));

describe('how printed parts stand', () => {
  it('passes a box, with its figures', () => {
    const { overhang, foot } = findings(box([0, 0, 0], [20, 20, 20]));
    expect(overhang).toMatchObject({
      id: 'jig.overhang',
      level: 'ok',
      place: 'part',
      value: 0,
      limit: 500,
      unit: 'mm2',
    });
    expect(foot).toMatchObject({ id: 'jig.first-layer', level: 'ok', limit: 100, unit: 'mm2' });
    expect(foot.value).toBeCloseTo(400, 3);
  });

  it('asks for support where more leans out than the plan allows, and says nothing of less', () => {
    const wide = findings(table(10, 20)).overhang;
    expect(wide.level).toBe('warn');
    expect(wide.value).toBeCloseTo(1600 - 400, 0);
    expect(wide.message).toMatch(/more than 50 degrees from upright on more than 500 mm2: print it with support/);
    expect(findings(table(10, 14)).overhang.level).toBe('ok');
  });

  it('asks for a brim on a small foot, and for more where the part would tip', () => {
    expect(findings(table(4, 8)).foot).toMatchObject({ level: 'warn', message: expect.stringMatching(/brim/) });
    const leaning = union(box([0, 0, 0], [20, 20, 20]), box([0, 0, 19], [120, 20, 40]));
    expect(findings(leaning).foot).toMatchObject({ level: 'warn', message: expect.stringMatching(/tips/) });
  });
});

import { readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { BASE, planFrom, problemsOf } from './base-plan.js';
import { PLATES } from './plate-plan.js';

const plan = planFrom(BASE + PLATES);
const plate = (name: string) => plan.plates.find((p) => p.name === name)!;

/** What is said of the base plan with one section more, without the file's name. */
const problems = (section: string): string[] => problemsOf(BASE + section).map((p) => `${p.path}: ${p.message}`);
const ofPlate = (fields: string): string[] => problems(`plates:\n  - { name: a, ${fields} }\n`);

describe('plates', () => {
  test('take from flange and collector what they leave out', () => {
    expect(plate('outlet')).toMatchObject({
      feeds: ['collector'],
      thickness: 10,
      material: 'mild steel',
      edge: 8,
      throatEdge: 8,
      fillet: null,
      // ISO 273 medium for M8: 9 mm. Outlet of 50 mm, 0.2 mm per side.
      pattern: { bolts: { thread: 'M8', holeDiameter: 9 }, boltCircle: 90, throat: { kind: 'round', diameter: 50.4 } },
    });
    expect(plate('ring')).toMatchObject({ material: '304 stainless', pattern: { bore: 50.4, od: 70.4 } });
    expect(plate('slip').pattern).toEqual({ kind: 'slip_joint', tubeOd: 50, wall: 1.6, overlap: 40, fit: 0.2 });
    expect(plate('wheel').pattern).toMatchObject({ count: 6, bolts: { holeDiameter: 8.5 }, clocking: Math.PI / 6 });
    expect(plate('divided inlet').pattern).toMatchObject({
      throat: { kind: 'divided', width: 96, height: 46, web: 6, cornerRadius: 6 },
    });
    expect(plate('downpipe')).toMatchObject({ count: 2, fillet: 20 });
  });

  test('none, no gaskets and plain drawings where the plan says nothing', () => {
    const bare = planFrom(BASE);
    expect([bare.plates, bare.gaskets]).toEqual([[], null]);
    expect(bare.drawing).toEqual({
      units: 'mm',
      version: 'r2007',
      curves: 'polylines',
      paper: 'a4',
      engrave: true,
      sheet: null,
    });
  });

  test.each([
    [
      'an unknown pattern',
      'kind: round_thing',
      'plates.0.kind: expected rectangle_four_bolt, triangle_three_bolt, oval_two_bolt, round, vband_bore or slip_joint, found "round_thing"',
    ],
    [
      'a collector that is not there',
      'kind: oval_two_bolt, for: front, bolt_spacing: 90',
      'plates.0.for: expected a collector ("collector"), found "front"',
    ],
    [
      'no bore and no collector',
      'kind: oval_two_bolt, bolt_spacing: 90',
      'plates.0.bore: missing; give it, or under for the collector whose outlet it comes from',
    ],
    [
      'two collectors for one opening',
      'kind: round, bolts: 4, bolt_circle: 90, bore: 50, for: [collector, collector]',
      'plates.0.for: two collectors end only in a plate with a divided throat',
    ],
    [
      'one collector for both openings',
      'kind: rectangle_four_bolt, bolt_x: 90, bolt_y: 60, for: [collector, collector], throat: { kind: divided, width: 80, height: 40 }',
      'plates.0.for.1: collector "collector" is listed twice',
    ],
    [
      'corners that do not fit',
      'kind: rectangle_four_bolt, bolt_x: 90, bolt_y: 60, throat: { kind: open, width: 30, height: 40, corner_radius: 16 }',
      'plates.0.throat.corner_radius: expected a corner radius up to half an opening (15 mm), found 16 mm',
    ],
    [
      'a web as wide as the throat',
      'kind: rectangle_four_bolt, bolt_x: 90, bolt_y: 60, throat: { kind: divided, width: 30, height: 40, web: 30 }',
      'plates.0.throat.web: expected a web thinner than the width (30 mm), found 30 mm',
    ],
    [
      'a ring smaller than its bore',
      'kind: vband_bore, for: collector, od: 50',
      'plates.0.od: expected a ring larger than its bore (50.4 mm), found 50 mm',
    ],
    [
      'a sleeve of nothing',
      'kind: slip_joint, tube_od: 40',
      'plates.0.wall: missing; give it, or under for the collector whose outlet it comes from',
    ],
    ['a field it does not have', 'kind: slip_joint, for: collector, bolts: 4', 'plates.0.bolts: '],
  ])('%s is told by its field', (_, fields, message) => {
    const found = ofPlate(fields);
    expect(found).toHaveLength(1);
    expect(found[0]!.startsWith(message), found[0]).toBe(true);
  });

  test('two of one name are refused', () => {
    const two =
      'plates:\n  - { name: a, kind: slip_joint, for: collector }\n  - { name: a, kind: slip_joint, for: collector }\n';
    expect(problems(two)).toEqual(['plates.1.name: the name "a" is taken by an earlier plate; each needs its own']);
  });
});

describe('gaskets and drawings', () => {
  test('an empty section of gaskets asks for all of them', () => {
    const { gaskets } = planFrom(`${BASE}gaskets: {}\n`);
    expect(gaskets).toEqual({ flanges: true, plates: true, grow: 1, thickness: 1.5, material: 'graphite sheet' });
  });

  test('a sheet has its gaps and margins', () => {
    const { drawing } = planFrom(`${BASE}drawing: { dxf_units: in, dxf_version: r12, sheet: { size: [1000, 500] } }\n`);
    expect(drawing).toMatchObject({
      units: 'in',
      version: 'r12',
      sheet: { size: [1000, 500], gap: 8, margin: 10, count: 1 },
    });
  });

  test('paper goes with the units of the plan', () => {
    const inches = readFileSync(new URL('../../templates/v8-bank.yaml', import.meta.url), 'utf8');
    expect(planFrom(inches).drawing.paper).toBe('letter');
    expect(planFrom(`${inches}\ndrawing: { paper: a4 }\n`).drawing.paper).toBe('a4');
    expect(planFrom(`${BASE}drawing: { paper: letter }\n`).drawing.paper).toBe('letter');
  });

  test.each([
    ['drawing: { dxf_version: r13 }\n', 'drawing.dxf_version: expected r2007 or r12, found "r13"; did you mean "r12"?'],
    ['drawing: { sheet: { size: [100, 15] } }\n', 'drawing.sheet.margin: margins of 10 mm leave nothing of the sheet'],
    ['drawing: { sheet: { size: [100] } }\n', 'drawing.sheet.size'],
    ['gaskets: { grow: -1 }\n', 'gaskets.grow: expected a length from 0 mm to 10 mm, found -1 mm'],
  ])('%s is told by its field', (section, message) => {
    const found = problems(section);
    expect(found).toHaveLength(1);
    expect(found[0]!.startsWith(message), found[0]).toBe(true);
  });
});

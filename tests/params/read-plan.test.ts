import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parse } from 'yaml';
import { radians } from '../../src/geometry/angle.js';
import { readPlan } from '../../src/params/read-plan.js';
import { markedJig } from '../support/jig-fixture.js';
import { stlText, tetrahedron } from '../support/stl-text.js';
import { BASE, planFrom, problemAfter, problemsOf, swap } from './base-plan.js';
import { fullPlan } from './full-plan.js';

describe('a sound plan', () => {
  test('comes in mm, rad and unit directions, with its defaults', () => {
    const plan = planFrom(BASE);
    expect(plan.heads[0]).toMatchObject({ name: 'head', body: null });
    expect(plan.heads[0]!.bolts[0]).toEqual({
      at: [-40, 0],
      thread: 'M8',
      holeDiameter: 9,
      threadDiameter: 8,
      socketDiameter: 1.25 * 13 + 3,
    });
    expect(plan.flange).toEqual({
      thickness: 10,
      material: 'mild steel',
      portEdge: 8,
      boltEdge: 8,
      web: 5,
      fillet: 6,
      opening: { match: 'port', enlarge: 0 },
      style: { kind: 'one_piece' },
      dowels: [],
      notches: [],
      growth: null,
      boltFit: 'medium',
      weldLeg: 1.6,
      torchGap: 20,
      leastCutHole: 1.5,
      cutClass: 2,
      kerf: { width: 0, compensate: false },
    });
    expect(plan.tube.bends).toEqual([{ clr: 63.5, maxAngle: Math.PI, leg: 0, shortLeg: 0 }]);
    expect(plan.tube.sticks).toEqual([{ length: 2000 }]);
    expect(plan.stock).toEqual({
      kerf: 2,
      grip: 25,
      leastOffcut: 150,
      minimise: 'pieces',
      currency: null,
      density: null,
    });
    expect(plan.collectors[0]).toMatchObject({
      name: 'collector',
      cylinders: [1, 2],
      inletGap: 4,
      mergeHalfAngle: radians(8),
      order: { kind: 'free' },
      outlet: { od: 50, wall: 1.6, coneLength: 100, tail: 40 },
    });
    expect(plan.runners).toEqual({
      length: 600,
      band: null,
      tuned: false,
      tolerance: 1,
      clearance: 6,
      given: [],
      seed: 1,
      weights: { bend: 20, turning: 12, tightness: 8, closeness: 30, scrap: 5 },
      budget: 20,
    });
    expect(plan.tube.steps).toEqual([]);
    expect([plan.secondaries, plan.keepOuts, plan.collectors[0]!.freedom]).toEqual([null, [], null]);
    expect(plan.collectors[0]!.from).toEqual([]);
    expect(plan.jig).toEqual(markedJig({ strut: null }));
    expect(plan.engine).toMatchObject({ bankAngle: 0, compressionRatio: null, cam: null, rpm: null });
  });

  test('reads the same from JSON', () => {
    expect(planFrom(JSON.stringify(parse(BASE)))).toEqual({ ...planFrom(BASE), hash: expect.any(String) });
    expect(planFrom(JSON.stringify(parse(BASE), null, 2))).toEqual({ ...planFrom(BASE), hash: expect.any(String) });
  });

  test('reads the same with Windows line ends and a byte order mark', () => {
    expect(planFrom(`\uFEFF${BASE.replaceAll('\n', '\r\n')}`)).toEqual({ ...planFrom(BASE), hash: expect.any(String) });
  });

  test('may repeat a part by an anchor', () => {
    const text = swap(BASE, 'shape: { kind: round, diameter: 38 }', 'shape: &s { kind: round, diameter: 38 }');
    const plan = planFrom(swap(text, '{ kind: oval, width: 44, height: 36 }', '*s'));
    expect(plan.ports.map((p) => p.shape)).toEqual(['round 38 mm', 'round 38 mm']);
  });
});

describe('one wrong value is one problem, with its line, column, path, what is expected, what was found', () => {
  test.each([
    ['at: [95, 0]', 'at: [95, ¦abc]', 'head.ports.1.at.1: expected a length such as 44.45 or "1.75 in", found "abc"'],
    [
      'at: [95, 0]',
      'at: [95, ¦"12"]',
      'head.ports.1.at.1: expected a length such as 44.45 or "1.75 in", found "12" without a unit: leave the quotes away or add mm or in',
    ],
    ['od: 42.4', 'od: ¦-1', 'tube.od: expected a length over 0 mm and at most 200 mm, found -1 mm'],
    ['od: 42.4', 'od: ¦9 in', 'tube.od: expected a length over 0 mm and at most 200 mm, found "9 in"'],
    ['od: 42.4', 'od: ¦.nan', 'tube.od: expected a length such as 44.45 or "1.75 in", found NaN'],
    ['od: 42.4', 'od: ¦.inf', 'tube.od: expected a length such as 44.45 or "1.75 in", found Infinity'],
    ['od: 42.4', 'od:¦', 'tube.od: expected a length such as 44.45 or "1.75 in", found nothing'],
    ['od: 42.4', 'od: ¦[1, 2]', 'tube.od: expected a length such as 44.45 or "1.75 in", found [1,2]'],
    [
      'od: 42.4',
      'od: ¦{ mm: 3 }',
      'tube.od: expected a length such as 44.45 or "1.75 in", found a section with its own fields',
    ],
    ['evenrun: 1', 'evenrun: ¦2', 'evenrun: expected 1, the format this program reads, found 2'],
    ['units: mm', 'units: ¦cm', 'units: expected mm or in, found "cm"'],
    ['cylinders: 2', 'cylinders: ¦two', 'engine.cylinders: expected a whole number from 1 to 16, found "two"'],
    ['cylinders: 2', 'cylinders: ¦2.5', 'engine.cylinders: expected a whole number from 1 to 16, found 2.5'],
    ['cylinders: 2', 'cylinders: ¦17', 'engine.cylinders: expected a whole number from 1 to 16, found 17'],
    [
      'layout: inline',
      'layout: ¦inlin',
      'engine.layout: expected single, inline, vee or flat, found "inlin"; did you mean "inline"?',
    ],
    [
      'layout: inline',
      'layout: single',
      '5:14 engine.cylinders: expected 1 for the layout single, found 2; take inline, vee or flat',
    ],
    [
      'layout: inline',
      'layout: vee',
      '4:1 engine.bank_angle: missing; a vee engine needs the angle between its banks in degrees, such as 90',
    ],
    [
      'layout: inline',
      'layout: inline\n  bank_angle: ¦60',
      'engine.bank_angle: only a vee engine has a bank angle; leave it out for the layout inline',
    ],
    [
      'layout: inline',
      'layout: vee\n  bank_angle: ¦180',
      'engine.bank_angle: expected an angle from 1 to 179 degrees, found 180',
    ],
    [
      'firing_order: [1, 2]',
      'firing_order: ¦[1, 1]',
      'engine.firing_order: expected every cylinder from 1 to 2 once, found [1,1]',
    ],
    [
      'firing_order: [1, 2]',
      'firing_order: ¦[1, 3]',
      'engine.firing_order: expected every cylinder from 1 to 2 once, found [1,3]',
    ],
    [
      'firing_order: [1, 2]',
      'firing_order: ¦[1]',
      'engine.firing_order: expected every cylinder from 1 to 2 once, found [1]',
    ],
    ['firing_order: [1, 2]', 'firing_order: ¦12', 'engine.firing_order: expected a list such as [1, 2, 3], found 12'],
    [
      'stroke: 80',
      'stroke: 80\n  compression_ratio: ¦50',
      'engine.compression_ratio: expected a number from 3 to 30, found 50',
    ],
    [
      'stroke: 80',
      'stroke: 80\n  rpm: { power: 6000, limit: ¦5000 }',
      'engine.rpm.limit: expected a limit of at least the speed of peak power (6000), found 5000',
    ],
    [
      'stroke: 80',
      'stroke: 80\n  cam: { exhaust_opens_bbdc: ¦200, exhaust_closes_atdc: 20, intake_opens_btdc: 20, intake_closes_abdc: 60 }',
      'engine.cam.exhaust_opens_bbdc: expected an angle from -20 to 150 degrees, found 200',
    ],
    [
      'stroke: 80',
      'stroke: 80\n  cam: { exhaust_opens_bbdc: ¦-10, exhaust_closes_atdc: -30, intake_opens_btdc: 20, intake_closes_abdc: 60 }',
      'engine.cam.exhaust_opens_bbdc: the exhaust valve would be open for 140 degrees of crank; expected 150 to 420',
    ],
    [
      'kind: round',
      'kind: ¦rund',
      'head.ports.0.shape.kind: expected round, oval, rectangle, trapezoid, d or traced, found "rund"; did you mean "round"?',
    ],
    [
      'thread: M8 }\n    - { at: [135',
      'thread: ¦M7 }\n    - { at: [135',
      'head.bolts.0.thread: expected M6, M8, M10, M12, 5/16, 3/8 or 7/16, found "M7"',
    ],
    [
      'thread: M8 }\n    - { at: [135',
      'thread: ¦m8 }\n    - { at: [135',
      'head.bolts.0.thread: expected M6, M8, M10, M12, 5/16, 3/8 or 7/16, found "m8"; did you mean "M8"?',
    ],
    [
      'thread: M8 }\n    - { at: [135',
      'thread: M8, hole_diameter: ¦8 }\n    - { at: [135',
      'head.bolts.0.hole_diameter: expected a hole larger than the thread M8 (8 mm), found 8 mm',
    ],
    [
      'cylinder: 2,',
      'cylinder: ¦3,',
      'head.ports.1.cylinder: expected a cylinder from 1 to 2 (engine.cylinders), found 3',
    ],
    [
      'cylinder: 2,',
      'cylinder: ¦1,',
      'head.ports.1.cylinder: cylinder 1 has a port already, head.ports.0; each cylinder has one',
    ],
    ['at: [95, 0]', 'at: ¦[0, 0]', 'head.ports.1.at: this port stands at the same place as head.ports.0'],
    ['at: [95, 0]', 'at: ¦[95]', 'head.ports.1.at: expected at least 2 entries, found [95]'],
    ['at: [95, 0]', 'at: ¦[95, 0, 1]', 'head.ports.1.at: expected at most 2 entries, found [95,0,1]'],
    ['at: [135, 0]', 'at: ¦[-40, 0.5]', 'head.bolts.1.at: this bolt stands at the same place as head.bolts.0'],
    [
      'at: [95, 0]',
      'at: [95, 0], direction: ¦[0, -2, 1]',
      'head.ports.1.direction: the port must leave the face: its direction may lean up to 60 degrees from straight out, [0, 0, 1]',
    ],
    [
      '  bolts:',
      '  body: { from: [0, 0], to: ¦[100, 0], depth: 100 }\n  bolts:',
      'head.body.to: the body has no size: from and to must differ in x and in y',
    ],
    [
      'direction: [0, -1, 0]',
      'direction: ¦[0, 0, 0]',
      'collector.direction: expected a direction that is not zero, such as [0, -1, 0], found [0,0,0]',
    ],
    [
      'at: [60, -300, 150]',
      'at: ¦[60, -300, -5]',
      'collector.at: the inlet plane\'s centre lies 5 mm behind the face of "head"; move it along [0, 0, 1]',
    ],
    ['od: 50', 'od: ¦40', 'collector.outlet.od: expected an outlet no smaller than the tube (42.4 mm), found 40 mm'],
    ['{ od: 50', '{ od: 30, wall: ¦15', 'collector.outlet.wall: expected a wall thinner than half the outlet'],
    ['wall: 1.6', 'wall: ¦20.5', 'tube.wall: expected a length over 0 mm and at most 20 mm, found 20.5 mm'],
    [
      'clr: 63.5',
      'clr: ¦30',
      'tube.bends.0.clr: expected a CLR of at least 42.4 mm (tube.least_clr 1 x od), found 30 mm: the inside of a tighter bend thins and kinks; take a larger one, or lower tube.least_clr',
    ],
    [
      'clr: 63.5',
      'clr: 63.5, max_angle: ¦190',
      'tube.bends.0.max_angle: expected an angle from 1 to 180 degrees, found 190',
    ],
    ['bends:\n    - { clr: 63.5 }', 'bends: ¦[]', 'tube.bends: expected at least 1 entry, found []'],
    [
      'thickness: 10',
      'thickness: 10\n  bolt_fit: ¦snug',
      'flange.bolt_fit: expected fine, medium or coarse, found "snug"',
    ],
    [
      'thickness: 10',
      'thickness: 10\n  kerf: { compensate: ¦maybe }',
      'flange.kerf.compensate: expected true or false, found "maybe"',
    ],
    ['length: 600', 'length: 600\n  ¦claerance: 4', 'runners.claerance: unknown field; did you mean "clearance"?'],
    [
      'length: 600',
      'length: 600\n  ¦zzz: 1',
      'runners.zzz: unknown field; this section has length, spread, clearance, heat_distance, weights, budget, route, routes and seed',
    ],
    [
      '  bolts:',
      '  ¦hole_pattern: 1\n  bolts:',
      'head.hole_pattern: unknown field; this section has ports, bolts, trace, plugs and body',
    ],
    [
      'diameter: 38',
      'diameter: 38, ¦radius: 2',
      'head.ports.0.shape.radius: unknown field; this section has kind and diameter',
    ],
    ['name: base', 'name: ¦""', 'name: expected a name such as "street four": text of 1 to 80 characters, found ""'],
    [
      'name: base',
      'name: ¦"a\\u0007"',
      'name: expected a name such as "street four" without control characters, found "a\\u0007"; save the file as UTF-8',
    ],
    [
      'name: base',
      'name: ¦"a\\uFFFDb"',
      'name: expected a name such as "street four" without control characters, found "a\uFFFDb"; save the file as UTF-8',
    ],
    ['name: base', 'name: ¦12', 'name: expected a name such as "street four": text of 1 to 80 characters, found 12'],
    ['name: base\n', '', '1:1 name: missing; expected a name such as "street four": text of 1 to 80 characters'],
    ['  od: 42.4\n', '', '20:1 tube.od: missing; expected a length such as 44.45 or "1.75 in"'],
    [
      ', thread: M8 }\n    - { at: [135',
      ' }\n    - { at: [135',
      '15:7 head.bolts.0.thread: missing; expected M6, M8, M10, M12, 5/16, 3/8 or 7/16',
    ],
    [
      'shape: { kind: round, ',
      '¦shape: { ',
      'head.ports.0.shape.kind: missing; expected round, oval, rectangle, trapezoid, d or traced',
    ],
    [
      'outlet: { od: 50, cone_length: 100 }',
      'outlet: ¦50',
      'collector.outlet: expected a section with fields, found 50',
    ],
    ['runners:\n  length: 600', 'runners:¦', 'runners: expected a section with fields, found nothing'],
  ])('%j made %j', (part, marked, message) => {
    expect(problemAfter(part, marked.replace('¦', ''))).toBe(`plan.yaml:${placeOf(part, marked)}${message}`);
  });

  test('inches in an inch plan', () => {
    const text = swap(swap(BASE, 'units: mm', 'units: in'), 'od: 42.4', 'od: 20');
    expect(readPlan(text, 'p.yaml')).toMatchObject({
      ok: false,
      text: expect.stringContaining(
        'p.yaml:21:7 tube.od: expected a length over 0 in and at most 7.874 in, found 20 in',
      ),
    });
  });

  test('an unknown field is told its nearest name at its own line', () => {
    const problems = problemsOf(swap(BASE, '  bolts:', '  botls:'));
    expect(problems).toEqual([
      { line: 10, column: 1, path: 'head.bolts', message: 'missing; list the bolts, or name a drawing under trace' },
      { line: 14, column: 3, path: 'head.botls', message: 'unknown field; did you mean "bolts"?' },
    ]);
  });

  test('all problems come at once, in the order of the file, rules of sound sections too', () => {
    const text = swap(
      swap(swap(BASE, 'od: 42.4', 'od: x'), 'at: [60, -300, 150]', 'at: [60, -300, 0]'),
      'name: base',
      'nam: base',
    );
    expect(problemsOf(text).map((p) => `${p.line} ${p.path}`)).toEqual([
      '1 name',
      '2 nam',
      '21 tube.od',
      '27 collector.at',
    ]);
  });
});

describe('files that are no plan', () => {
  test.each([
    ['', '1:1: expected a plan with sections such as engine, head and tube; the file is empty'],
    ['# only a comment\n', '1:1: expected a plan with sections such as engine, head and tube; the file is empty'],
    ['just text', '1:1: expected a plan with sections such as engine, head and tube'],
    ['- 1\n- 2\n', '1:1: expected a plan with sections such as engine, head and tube'],
    ['name: a\nname: b\n', '2:1: "name" is given twice in the same section; keep one'],
    ['---\nname: a\n---\nname: b\n', '3:1: a second document starts here; a plan file holds one plan'],
    ['name: !secret a\n', '1:7: a plan has no tags (!name); leave it out'],
    ['name: !!binary aGk=\n', '1:7: a plan has no tags (!name); leave it out'],
    ['a: &x [*x]\n', '1:8: *x stands inside itself'],
    ['base: &b { od: 1 }\ntube: { <<: *b }\n', '2:9: a plan cannot have a field named "<<"'],
    ['tube: { __proto__: { od: 1 } }\n', '1:9: a plan cannot have a field named "__proto__"'],
    ['{"constructor": {"prototype": 1}}', '1:2: a plan cannot have a field named "constructor"'],
    ['%YAML 1.1\n---\nname: a\n', '1:1: a plan is YAML 1.2; leave the %YAML line out'],
  ])('%j', (text, message) => {
    const read = readPlan(text, 'plan.yaml');
    expect(read.ok ? '' : read.text.split('\n')[0]).toBe(`plan.yaml:${message}`);
  });

  test.each([
    ['an open bracket', 'name: a\nhead: [1, 2\nunits: mm\n', 3],
    ['an open quote', 'name: "a\n', 2],
    ['a bad indent', 'engine:\n    bore: 1\n  stroke: 2\n', 3],
    ['a tab', 'engine:\n\tbore: 1\n', 2],
    ['an unknown alias', 'name: a\nhead: *nobody\n', 2],
  ])('%s is told at its line', (_, text, line) => {
    expect(problemsOf(text)[0]!.line).toBe(line);
  });

  test('aliases that would multiply without end are refused', () => {
    const bomb = ['a: &a [x, x, x, x, x, x, x, x]'];
    for (const [k, j] of ['ba', 'cb', 'dc', 'ed', 'fe', 'gf', 'hg', 'ih'].map((s) => [s[0], s[1]])) {
      bomb.push(`${k}: &${k} [${Array(8).fill(`*${j}`).join(', ')}]`);
    }
    expect(problemsOf(bomb.join('\n')).length).toBeGreaterThan(0);
  });

  test.each([
    ['dashes', '- '.repeat(50_000)],
    ['brackets', '['.repeat(400_000)],
    ['braces', '{a: '.repeat(100_000)],
    ['keys', '? '.repeat(50_000)],
    ['indents', Array.from({ length: 1000 }, (_, i) => `${' '.repeat(i)}a:`).join('\n')],
  ])('%s nested without end are refused', (_, text) => {
    expect(problemsOf(text)[0]!.message).toBe('the file is nested deeper than a plan ever is');
  });

  test('a file over a megabyte is refused, a long one below is read in time', () => {
    expect(problemsOf('#'.repeat(1_000_001))[0]!.message).toMatch(/at most 1000000 bytes, found 1000001$/);
    const start = performance.now();
    const many = problemsOf(Array.from({ length: 60_000 }, (_, i) => `k${i}: ${i}`).join('\n'));
    expect(many.length).toBeLessThanOrEqual(200);
    expect(performance.now() - start).toBeLessThan(10_000);
  });
});

test('what is printed holds no control characters, whatever the file does', () => {
  const read = readPlan('"a\\e[2J\\nb": 1\nunits: "\\u009b\\u202e"\n', 'plan.yaml');
  expect(read.ok ? '' : read.text).toContain('2:8 units: expected mm or in, found "\\u009b\\u202e"');
  expect(read.ok ? '' : read.text).toContain('1:1 a\\u001b[2J\\u000ab: unknown field');
});

test('aliases are counted, and one too many is told at its line', () => {
  const text = `x: &x 1\ny:\n${'  - *x\n'.repeat(60)}`;
  expect(problemsOf(text)).toEqual([{ line: 53, column: 5, path: '', message: 'expected at most 50 aliases (*name)' }]);
});

describe('junk never throws and never passes', () => {
  const noThrow = (text: string) => {
    const read = readPlan(text, 'plan.yaml');
    expect(read.ok).toBe(false);
    if (!read.ok)
      for (const p of read.problems) expect(p.line >= 1 && p.column >= 1 && p.message.length > 0).toBe(true);
  };

  test('any text', () => {
    fc.assert(fc.property(fc.string({ unit: 'binary', maxLength: 200 }), noThrow), { numRuns: 500 });
    const yamlish = fc.constantFrom(
      ...'{}[]:,-?&*!|>#%@"\'\n \t~<aé0.'.split(''),
      '- ',
      ': ',
      '\n  ',
      '<<: ',
      '--- ',
      '\u2028',
    );
    fc.assert(fc.property(fc.string({ unit: yamlish, maxLength: 60 }), noThrow), { numRuns: 2000 });
  });

  test('any JSON', () => {
    fc.assert(fc.property(fc.json({ maxDepth: 6 }), noThrow), { numRuns: 500 });
  });

  test.each([
    ['base', BASE],
    ['full', fullPlan('mm')],
  ])('the %s plan with any value in any place reads or says why', (_, text) => {
    const base = parse(text) as Record<string, unknown>;
    const places = placesOf(base);
    fc.assert(
      fc.property(fc.constantFrom(...places), fc.jsonValue({ maxDepth: 2 }), (place, value) => {
        const copy = structuredClone(base);
        let at: Record<string, unknown> = copy;
        for (const step of place.slice(0, -1)) at = at[step] as Record<string, unknown>;
        at[place.at(-1)!] = value;
        const read = readPlan(JSON.stringify(copy, null, 1), 'plan.json', () => stlText(tetrahedron(9)));
        if (!read.ok) expect(read.text).toMatch(/^plan\.json:\d+:\d+/);
      }),
      { numRuns: 2000 },
    );
  });
});

/** `line:column ` of the mark in the base plan with one part replaced, empty without a mark. */
function placeOf(part: string, marked: string): string {
  if (!marked.includes('¦')) return '';
  const before = swap(BASE, part, marked).split('¦')[0]!.split('\n');
  return `${before.length}:${before.at(-1)!.length + 1} `;
}

/** The path of every section, field and entry. */
function placesOf(value: unknown): string[][] {
  if (typeof value !== 'object' || value === null) return [];
  return Object.entries(value).flatMap(([key, inner]) => [[key], ...placesOf(inner).map((p) => [key, ...p])]);
}

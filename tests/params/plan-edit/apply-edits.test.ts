import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { applyEdits } from '../../../src/params/plan-edit/apply-edits.js';
import { type PlanEdit, planEditSchema } from '../../../src/params/plan-edit/plan-edit.js';
import { readPlan } from '../../../src/params/read-plan.js';
import { STARTERS } from '../../../src/params/text/starter.js';
import { parseLength } from '../../../src/params/units.js';
import { TEMPLATE_FOLDER } from '../../support/command.js';
import { commentsOf } from '../../support/yaml-comments.js';
import { fullPlan } from '../full-plan.js';

const starter = (name: string): string => readFileSync(`${TEMPLATE_FOLDER}${name}.yaml`, 'utf8');
const FOUR = starter('inline-four');

function edited(text: string, ...edits: PlanEdit[]): string {
  const done = applyEdits(
    text,
    edits.map((e) => planEditSchema.parse(e)),
  );
  if (!done.ok) throw new Error(done.message);
  return done.text;
}

const refusal = (text: string, ...edits: PlanEdit[]): string => {
  const done = applyEdits(text, edits);
  return done.ok ? '' : done.message;
};

/** Every number, text and flag of plain data by its path. */
function leaves(value: unknown, path = ''): Map<string, unknown> {
  if (typeof value !== 'object' || value === null) return new Map([[path, value]]);
  return new Map(Object.entries(value).flatMap(([key, v]) => [...leaves(v, path === '' ? key : `${path}.${key}`)]));
}

/** Paths whose values differ between two texts. */
function changed(before: string, after: string): string[] {
  const [a, b] = [leaves(parse(before)), leaves(parse(after))];
  return [...new Set([...a.keys(), ...b.keys()])].filter((path) => a.get(path) !== b.get(path)).sort();
}

const lineOf = (text: string, part: string): string => text.split('\n').find((line) => line.includes(part))!;

describe('a change of a plan', () => {
  it('writes over the number and leaves its line as it is laid out', () => {
    const text = edited(FOUR, { edit: 'runners', field: 'length', value: 812.5 });
    expect(lineOf(text, 'head face to collector')).toBe('  length: 812.5       # head face to collector inlet plane');
    expect(text.replace('812.5', '760')).toBe(FOUR);
  });

  it('that changes nothing changes no byte', () => {
    const same: PlanEdit[] = [
      { edit: 'runners', field: 'length', value: 760 },
      { edit: 'collector-at', collector: 0, at: [160, -350, 150] },
      { edit: 'collector-direction', collector: 0, direction: [0.3, -1, 0] },
      { edit: 'collector-angle', collector: 0, field: 'clocking', value: Math.PI / 4 },
    ];
    expect(edited(FOUR, ...same)).toBe(FOUR);
  });

  it('keeps the unit and the quotes a length was written in', () => {
    const text = FOUR.replace('length: 760', 'length: "29 15/16 in"').replace('clr: 63.5', "clr: '63.50 mm'");
    const after = edited(
      text,
      { edit: 'runners', field: 'length', value: 762 },
      { edit: 'tube-clr', bend: 0, value: 70.1 },
    );
    expect(parse(after).runners.length).toBe('30 in');
    expect(after).toContain('length: "30 in"');
    expect(after).toContain("clr: '70.10 mm'");
  });

  it('is written in inches where the plan is, and reads back as what was meant', () => {
    const text = starter('v8-bank');
    const after = edited(text, { edit: 'collector-at', collector: 0, at: [254, -380, 152.4] });
    const [x, y, z] = parse(after).collector.at as number[];
    expect([x, z]).toEqual([10, 6]);
    expect(parseLength(y!, 'in')).toBeCloseTo(-380, 2);
    expect(changed(text, after)).toEqual(['collector.at.0', 'collector.at.1']);
  });

  it('moves both ends of a keep-out', () => {
    const text = edited(FOUR, { edit: 'keep-out-at', keepOut: 0, at: [340, -400, 230] });
    const { from, to } = parse(text).keep_out[0];
    expect([from, to]).toEqual([
      [340, -400, 230],
      [340, 80, 330],
    ]);
  });

  it('adds what is missing at the end of its section', () => {
    const text = edited(FOUR.replace('  clearance: 8      # between the skins of two primaries\n', ''), {
      edit: 'runners',
      field: 'clearance',
      value: 9,
    });
    expect(text).toContain('  spread: 1         # longest minus shortest\n  clearance: 9\n\nkeep_out:');
  });

  it('adds what is missing inside braces, and in JSON', () => {
    const braces = starter('single').replace(/runners:\n(?: {2}.*\n)+/, 'runners: { length: 720 } # short\n');
    expect(edited(braces, { edit: 'runners', field: 'spread', value: 2 })).toContain(
      'runners: { length: 720, spread: 2 } # short',
    );
    const json = JSON.stringify(parse(starter('single')));
    const after = JSON.parse(edited(json, { edit: 'collector-gap', collector: 0, value: 3 }));
    expect(after.collector.gap).toBe(3);
  });

  it('keeps line ends of another system', () => {
    const text = edited(FOUR.replaceAll('\n', '\r\n'), {
      edit: 'take-route',
      cylinder: 1,
      inlet: 1,
      points: [
        [0, 0, 0],
        [0, 0, 90],
        [160, -350, 150],
      ],
      clr: [63.5],
    });
    expect(text.match(/(?<!\r)\n/g)).toBeNull();
    expect(parse(text).runners.routes[0].points[1]).toEqual([0, 0, 90]);
  });

  it('takes routes into a plan with and without a list of them', () => {
    const route = (cylinder: number): PlanEdit => ({
      edit: 'take-route',
      cylinder,
      inlet: cylinder,
      points: [
        [95 * (cylinder - 1), 0, 0],
        [95 * (cylinder - 1), 0, 120.12345],
        [150, -200, 150],
        [160, -350, 150],
      ],
      clr: [63.5, 63.5],
    });
    const text = edited(FOUR, route(1), route(2));
    expect(parse(text).runners.routes).toHaveLength(2);
    expect(parse(text).runners.routes[1]).toEqual({
      by: 'xyz',
      cylinder: 2,
      inlet: 2,
      points: [
        [95, 0, 0],
        [95, 0, 120.1235],
        [150, -200, 150],
        [160, -350, 150],
      ],
      clr: 63.5,
    });
    expect(commentsOf(text)).toEqual(commentsOf(FOUR));
    const moved = edited(text, { edit: 'route-point', cylinder: 2, point: 2, at: [151, -201.5, 150] });
    expect(changed(text, moved)).toEqual(['runners.routes.1.points.2.0', 'runners.routes.1.points.2.1']);
    expect(refusal(text, route(2))).toMatch(/cylinder 2 has a route given by hand already/);
    const empty = FOUR.replace('  spread: 1 ', '  routes: []\n  spread: 1 ');
    expect(parse(edited(empty, route(3), route(4))).runners.routes).toHaveLength(2);
  });

  it('writes a radius that is found again in the stock', () => {
    const text = starter('v8-bank').replace(/clr: [\d.]+/, 'clr: 57.2 mm');
    const after = edited(text, {
      edit: 'take-route',
      cylinder: 1,
      inlet: 1,
      points: [
        [0, 0, 0],
        [0, 0, 100],
        [0, -200, 100],
      ],
      clr: [57.2],
    });
    expect(parse(after).runners.routes[0].clr).toBe('57.2 mm');
  });
});

describe('anchors', () => {
  const shared = FOUR.replace('at: [160, -350, 150] ', 'at: &place [160, -350, 150] ').replace(
    'from: [-80, -330, -60]',
    'from: *place',
  );

  it('stay where the value beside them is written over', () => {
    const text = FOUR.replace('length: 760', 'length: &long 760');
    expect(edited(text, { edit: 'runners', field: 'length', value: 770 })).toBe(text.replace('760', '770'));
  });

  it('are not followed: what others repeat is refused in words', () => {
    expect(refusal(shared, { edit: 'collector-at', collector: 0, at: [161, -350, 150] })).toMatch(
      /collector\.at\.0 .*anchor/,
    );
  });

  it('a repeat is written over by a value of its own', () => {
    const text = edited(shared, { edit: 'keep-out-at', keepOut: 1, at: [-80, -330, -60] });
    expect(changed(shared, text).filter((p) => p.startsWith('collector'))).toEqual([]);
    // the lowest corner was [0, -350, 40]: both corners move by the same
    expect(parse(text).keep_out[1]).toMatchObject({ from: [80, -330, 50], to: [-80, -210, -60] });
  });
});

describe('a change that cannot be', () => {
  it.each([
    [{ edit: 'collector-at', collector: 1, at: [0, 0, 0] }, /no collector 2/],
    [{ edit: 'keep-out-at', keepOut: 7, at: [0, 0, 0] }, /no keep-out 8/],
    [{ edit: 'route-point', cylinder: 1, point: 1, at: [0, 0, 0] }, /cylinder 1 has no route given by hand/],
    [{ edit: 'tube-clr', bend: 3, value: 50 }, /tube\.bends\.3/],
  ] as const)('%j is refused in words', (edit, words) => {
    expect(refusal(FOUR, edit as PlanEdit)).toMatch(words);
  });

  it('a length that is a band', () => {
    const band = FOUR.replace('length: 760', 'length: { from: 740, to: 800 }');
    expect(refusal(band, { edit: 'runners', field: 'length', value: 770 })).toMatch(/band/);
  });

  it('a text that is not YAML', () => {
    expect(refusal('a: [', { edit: 'runners', field: 'length', value: 770 })).toMatch(/not YAML/);
  });
});

const mm = fc.double({ min: -900, max: 900, noNaN: true });
const size = fc.double({ min: 1, max: 900, noNaN: true });
const place = fc.tuple(mm, mm, mm);

/** Any change, whether or not the plan has what it changes. */
const anyEdit: fc.Arbitrary<PlanEdit> = fc.oneof(
  fc.record({
    edit: fc.constant('runners' as const),
    field: fc.constantFrom('length' as const, 'spread' as const, 'clearance' as const),
    value: size,
  }),
  fc.record({ edit: fc.constant('tube-clr' as const), bend: fc.nat(1), value: size }),
  fc.record({ edit: fc.constant('collector-at' as const), collector: fc.nat(2), at: place }),
  fc.record({
    edit: fc.constant('collector-direction' as const),
    collector: fc.nat(2),
    direction: fc.tuple(mm, mm, fc.constant(-1)),
  }),
  fc.record({
    edit: fc.constant('collector-angle' as const),
    collector: fc.nat(2),
    field: fc.constantFrom('clocking' as const, 'merge_half_angle' as const),
    value: fc.double({ min: 0, max: 0.5, noNaN: true }),
  }),
  fc.record({ edit: fc.constant('collector-gap' as const), collector: fc.nat(2), value: size }),
  fc.record({ edit: fc.constant('keep-out-at' as const), keepOut: fc.nat(3), at: place }),
);

/** Where a change may show. */
function reach(edit: PlanEdit): RegExp {
  switch (edit.edit) {
    case 'runners':
    case 'secondaries':
      return new RegExp(`^${edit.edit}\\.${edit.field}$`);
    case 'tube-clr':
      return new RegExp(`^tube\\.bends\\.${edit.bend}\\.clr$`);
    case 'keep-out-at':
      return new RegExp(`^keep_out\\.${edit.keepOut}\\.(from|to|point|at)\\.\\d$`);
    case 'collector-at':
    case 'collector-direction':
      return new RegExp(`^collectors?\\.(${edit.collector}\\.)?(at|direction)\\.\\d$`);
    default:
      return /^collectors?\.(\d\.)?(clocking|merge_half_angle|gap)$/;
  }
}

describe('any change of any plan', () => {
  const plans = [...STARTERS.map((s) => starter(s.name)), fullPlan('mm'), fullPlan('in')];

  it('changes what it names and nothing else, and keeps every comment', () => {
    let count = 0;
    fc.assert(
      fc.property(fc.constantFrom(...plans), fc.array(anyEdit, { minLength: 1, maxLength: 3 }), (text, edits) => {
        const done = applyEdits(text, edits);
        if (!done.ok) return;
        count++;
        expect(commentsOf(done.text)).toEqual(commentsOf(text));
        const reaches = edits.map(reach);
        expect(changed(text, done.text).filter((path) => !reaches.some((r) => r.test(path)))).toEqual([]);
        expect(applyEdits(done.text, edits)).toEqual(done);
      }),
      { numRuns: 200 },
    );
    expect(count).toBeGreaterThan(50);
  });

  it('reads back as the length that was meant, to the rounding', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(FOUR, starter('v8-bank')),
        fc.double({ min: 1, max: 500, noNaN: true }),
        (text, value) => {
          const after = edited(text, { edit: 'runners', field: 'clearance', value });
          const read = readPlan(after, 'plan.yaml');
          expect(read.ok && Math.abs(read.plan.runners.clearance - value)).toBeLessThan(0.0051);
        },
      ),
      { numRuns: 60 },
    );
  });
});

import { describe, expect, test } from 'vitest';
import { BASE, planFrom, problemsOf, swap } from './base-plan.js';

/** The base plan with its one collector made a list. */
const collectors = (list: string) =>
  swap(
    BASE,
    'collector:\n  at: [60, -300, 150]\n  direction: [0, -1, 0]\n  outlet: { od: 50, cone_length: 100 }\n',
    list,
  );

const one = (fields: string, at = '[60, -300, 150]') =>
  `  - { ${fields}, at: ${at}, direction: [0, -1, 0], outlet: { od: 50, cone_length: 100 } }\n`;

const messages = (text: string) => problemsOf(text).map((p) => `${p.line} ${p.path}: ${p.message}`);

/** Line of a piece of a text. */
const lineOf = (text: string, piece: string) => text.split(piece)[0]!.split('\n').length;

/** Each coordinate near its expectation, to so many decimals. */
function expectNear(found: readonly number[], wanted: readonly number[], decimals: number): void {
  expect(found).toHaveLength(wanted.length);
  for (const [i, v] of wanted.entries()) expect(found[i]).toBeCloseTo(v, decimals);
}

describe('one head or several, one collector or several', () => {
  test('both are refused at the second, none at the top', () => {
    const both = `${BASE}collectors:\n${one('name: a, cylinders: [1, 2]')}`;
    expect(messages(both)).toContain(
      `${lineOf(both, 'collectors:')} collectors: give the collector as collector or as a list collectors, not both`,
    );
    const none = collectors('');
    expect(messages(none)).toEqual([
      '1 collector: missing; describe the collector under collector, or more than one as a list under collectors',
    ]);
    const headless = BASE.replace(/head:[\s\S]*flange:/, 'flange:');
    expect(messages(headless)).toEqual([
      '1 head: missing; describe the head face under head, or more than one as a list under heads',
    ]);
  });
});

describe('collectors', () => {
  test('a list shares the cylinders out', () => {
    const plan = planFrom(
      collectors(`collectors:\n${one('name: a, cylinders: [2]')}${one('name: b, cylinders: [1]', '[200, -300, 150]')}`),
    );
    expect(plan.collectors.map((c) => [c.name, c.cylinders, c.mergeHalfAngle])).toEqual([
      ['a', [2], 0],
      ['b', [1], 0],
    ]);
  });

  test.each([
    ['[1], [2, 2]', '27 collectors.1.cylinders.1: cylinder 2 is listed twice'],
    ['[1], [2, 3]', '27 collectors.1.cylinders.1: cylinder 3 has no port; the ports are of cylinders 1, 2'],
    ['[1, 2], [2]', '27 collectors.1.cylinders.0: cylinder 2 is in the collector "a" already'],
    ['[1], [1]', '27 collectors.1.cylinders: no collector takes cylinder 2; every port needs one'],
  ])('cylinders %s', (lists, message) => {
    const [a, b] = JSON.parse(`[${lists}]`).map((l: number[]) => JSON.stringify(l));
    const text = collectors(`collectors:\n${one(`name: a, cylinders: ${a}`)}${one(`name: b, cylinders: ${b}`)}`);
    expect(messages(text)).toContain(message.replace('27', String(lineOf(text, 'name: b,'))));
  });

  test('each name once', () => {
    const text = collectors(`collectors:\n${one('name: a, cylinders: [1]')}${one('name: a, cylinders: [2]')}`);
    expect(messages(text)).toEqual([
      `${lineOf(text, 'cylinders: [2]')} collectors.1.name: the name "a" is taken by an earlier collector; each needs its own`,
    ]);
  });

  test.each([
    [
      'merge_half_angle: 0',
      'collector.merge_half_angle: 2 inlets at 0 degrees never merge: expected an angle over 0 and up to 30 degrees',
    ],
    ['merge_half_angle: 31', 'collector.merge_half_angle: expected an angle from 0 to 30 degrees, found 31'],
    [
      'cylinders: [1]\n  merge_half_angle: 5',
      'collector.merge_half_angle: a single inlet runs straight in: give 0 or leave it out',
    ],
    ['cylinders: [1]', 'collector.cylinders: no collector takes cylinder 2; every port needs one'],
    ['order: [1, 3]', 'collector.order: expected each cylinder of this collector once (1, 2), found [1,3]'],
    ['order: [1]', 'collector.order: expected each cylinder of this collector once (1, 2), found [1]'],
    [
      'order: fring',
      'collector.order: expected free, firing, or the cylinders at inlet 1, 2, ... such as [1, 3, 4, 2], found "fring"',
    ],
    ['order: []', 'collector.order: expected at least 1 entry, found []'],
    ['pattern: line', 'collector.pattern: expected ring, found "line"'],
    ['cylinders: []', 'collector.cylinders: expected at least 1 entry, found []'],
  ])('%j is refused', (field, message) => {
    const found = messages(swap(BASE, 'direction: [0, -1, 0]', `direction: [0, -1, 0]\n  ${field}`));
    expect(
      found.some((m) => m.endsWith(message)),
      found.join('\n'),
    ).toBe(true);
  });

  test.each([
    ['free', { kind: 'free' }],
    ['firing', { kind: 'firing' }],
    ['[2, 1]', { kind: 'given', cylinders: [2, 1] }],
  ])('order %s', (text, order) => {
    expect(
      planFrom(swap(BASE, 'direction: [0, -1, 0]', `direction: [0, -1, 0]\n  order: ${text}`)).collectors[0]!.order,
    ).toEqual(order);
  });

  test('seven primaries do not fit one collector', () => {
    const ports = [1, 2, 3, 4, 5, 6, 7].map(
      (c) => `    - { cylinder: ${c}, at: [${90 * c}, 0], shape: { kind: round, diameter: 30 } }\n`,
    );
    const text = BASE.replace(/ {4}- \{ cylinder: 1[\s\S]* {2}bolts:/, `${ports.join('')}  bolts:`)
      .replace('cylinders: 2', 'cylinders: 7')
      .replace('[1, 2]', '[1, 2, 4, 5, 3, 7, 6]');
    expect(messages(text)).toEqual([
      `${lineOf(text, 'collector:')} collector: a collector joins at most 6 primaries and there are 7 ports; take a list of collectors`,
    ]);
  });

  test('the inlet plane may stand behind the face beside a body, not inside it', () => {
    const withBody = swap(BASE, '  bolts:', '  body: { from: [200, 60], to: [-100, -80], depth: 120 }\n  bolts:');
    const beside = swap(withBody, 'at: [60, -300, 150]', 'at: [60, -300, -20]');
    expect(planFrom(beside).heads[0]!.body).toEqual({ from: [-100, -80], to: [200, 60], depth: 120 });
    expect(messages(swap(withBody, 'at: [60, -300, 150]', 'at: [60, -30, -20]'))).toEqual([
      '28 collector.at: the inlet plane\'s centre lies 20 mm inside the body of "head"; move it along [0, 0, 1]',
    ]);
    expect(planFrom(swap(withBody, 'at: [60, -300, 150]', 'at: [60, -30, -121]')).collectors).toHaveLength(1);
  });
});

describe('heads', () => {
  const heads = (second: string) =>
    BASE.replace(
      /head:[\s\S]*flange:/,
      `heads:
  - name: front
    at: [0, 200, 200]
    facing: [0, 0, 2]
    ports: [{ cylinder: 1, at: [10, 20], shape: { kind: round, diameter: 38 } }]
    bolts: []
    body: { from: [-80, -80], to: [80, 80], depth: 150 }
  - ${second}
flange:`,
    );
  const rear =
    'name: rear\n    at: [100, 200, -100]\n    facing: [1, 0, 0]\n    clocking: 90\n    ports: [{ cylinder: 2, at: [10, 20], direction: [0, 1, 1], shape: { kind: round, diameter: 38 } }]\n    bolts: []\n    body: { from: [-80, -80], to: [80, 80], depth: 150 }';

  test('each stands in its own frame, turned by its clocking', () => {
    const plan = planFrom(heads(rear));
    expect(plan.heads.map((h) => h.name)).toEqual(['front', 'rear']);
    expect(plan.ports[0]!.frame).toMatchObject({ origin: [10, 220, 200], z: [0, 0, 1] });
    // Facing +x, y up would make x = -z; a quarter turn right-handed about +x takes y to +z and x to +y.
    const { x, y } = plan.heads[1]!.frame;
    expectNear(x, [0, 1, 0], 12);
    expectNear(y, [0, 0, 1], 12);
    const port = plan.ports[1]!;
    expect(port.head).toBe(1);
    expectNear(port.frame.origin, [100, 210, -80], 9);
    expectNear(port.frame.z, [Math.SQRT1_2, 0, Math.SQRT1_2], 12);
    // Its y lies as near as can be to the head's y, which is world z here.
    expectNear(port.frame.y, [-Math.SQRT1_2, 0, Math.SQRT1_2], 12);
  });

  test('each name once, and no collector behind a face', () => {
    const text = heads(rear.replace('name: rear', 'name: front').replace(/\n {4}body.*$/, ''));
    expect(messages(text)).toEqual([
      `${lineOf(text, 'at: [100, 200') - 1} heads.1.name: the name "front" is taken by an earlier head; each needs its own`,
      `${lineOf(text, 'at: [60, -300')} collector.at: the inlet plane's centre lies 40 mm behind the face of "front"; move it along [1, 0, 0]`,
    ]);
  });
});

import { describe, expect, test } from 'vitest';
import { BOLT_THREADS, threadDiameter } from '../../src/params/tables/bolt-holes.js';
import { socketDiameter } from '../../src/params/tables/socket-diameters.js';
import { BASE, planFrom, problemsOf, swap } from './base-plan.js';

const plugs = (list: string, text = BASE) => swap(text, 'flange:', `  plugs:\n${list}flange:`);
const PLUG = '    - { cylinder: 2, at: [95, 70, -20], direction: [0, 0.6, 0.8] }\n';

const faults = (text: string) => problemsOf(text).map((p) => `${p.path}: ${p.message}`);

describe('room for tools', () => {
  test('a straight socket on every bolt, from the outer face of the flange', () => {
    expect(planFrom(BASE).access).toEqual([
      {
        name: 'bolt 1',
        frame: { origin: [-40, 0, 10], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
        diameter: 19.25,
        length: 70,
      },
      {
        name: 'bolt 2',
        frame: { origin: [135, 0, 10], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
        diameter: 19.25,
        length: 70,
      },
    ]);
  });

  test('a measured socket, another depth, or none at all', () => {
    const measured = swap(BASE, '[135, 0], thread: M8', '[135, 0], thread: M8, socket: 0.75 in');
    expect(planFrom(`${measured}access: { bolt_depth: 45 }\n`).access.map((a) => [a.diameter, a.length])).toEqual([
      [19.25, 45],
      [19.05, 45],
    ]);
    expect(planFrom(`${BASE}access: { bolts: false }\n`).access).toEqual([]);
  });

  test('socket and boot on every plug, along its own axis', () => {
    const access = planFrom(plugs(PLUG)).access.slice(2);
    expect(access).toHaveLength(1);
    // 26 mm and 110 mm: common practice, no source.
    expect(access[0]).toMatchObject({ name: 'plug of cylinder 2', diameter: 26, length: 110 });
    expect(access[0]!.frame.origin).toEqual([95, 70, -20]);
    [0, 0.6, 0.8].forEach((v, i) => {
      expect(access[0]!.frame.z[i]).toBeCloseTo(v, 12);
    });
    expect(planFrom(`${plugs(PLUG)}access: { plugs: false }\n`).access).toHaveLength(2);
  });

  test('two plugs of one cylinder have two names', () => {
    const second = '    - { cylinder: 2, at: [95, 90, -20], direction: [0, 1, 0], diameter: 22, length: 4 in }\n';
    const [, , a, b] = planFrom(plugs(PLUG + second)).access;
    expect([a!.name, b!.name]).toEqual(['plug of cylinder 2', 'plug 2 of cylinder 2']);
    expect([b!.diameter, b!.length]).toEqual([22, 101.6]);
  });

  test('several heads: each in its own frame, named by it', () => {
    const text = BASE.replace(
      /head:[\s\S]*flange:/,
      `heads:
  - name: front
    at: [0, 200, 200]
    facing: [1, 0, 0]
    ports:
      - { cylinder: 1, at: [10, 20], shape: { kind: round, diameter: 38 } }
      - { cylinder: 2, at: [110, 20], shape: { kind: round, diameter: 38 } }
    bolts: [{ at: [5, 7], thread: M10 }]
    body: { from: [-80, -80], to: [180, 80], depth: 150 }
  - name: spare
    at: [0, 900, 0]
    facing: [0, 0, 1]
    ports: [{ cylinder: 3, at: [0, 0], shape: { kind: round, diameter: 38 } }]
    bolts: []
    plugs: [{ cylinder: 3, at: [1, 2, 3], direction: [0, 0, 1] }]
    body: { from: [-80, -80], to: [80, 80], depth: 150 }
flange:`,
    )
      .replace('cylinders: 2', 'cylinders: 3')
      .replace('[1, 2]\n  bore', '[1, 2, 3]\n  bore');
    const [bolt, plug] = planFrom(text).access;
    expect(bolt).toMatchObject({ name: 'bolt 1 of front', diameter: 23 });
    // Facing +x with y up, the head's x is -z of the world.
    expect(bolt!.frame.origin.map((v) => Math.round(v * 1e9) / 1e9)).toEqual([10, 207, 195]);
    expect(bolt!.frame.z).toEqual([1, 0, 0]);
    expect(plug!.frame.origin).toEqual([1, 902, 3]);
  });

  test.each([
    ['cylinder: 3', 'head.plugs.0.cylinder: expected a cylinder from 1 to 2 (engine.cylinders), found 3'],
    ['cylinder: none', 'head.plugs.0.cylinder: expected a whole number from 1 to 16, found "none"'],
    ['at: [95, 70]', 'head.plugs.0.at: expected at least 3 entries, found [95,70]'],
    [
      'direction: [0, 0, 0]',
      'head.plugs.0.direction: expected a direction that is not zero, such as [0, -1, 0], found [0,0,0]',
    ],
    ['diameter: 0', 'head.plugs.0.diameter: expected a length over 0 mm and at most 100 mm, found 0 mm'],
    ['length: 501', 'head.plugs.0.length: expected a length over 0 mm and at most 500 mm, found 501 mm'],
  ])('a plug with %j is refused', (field, message) => {
    const name = field.split(':')[0]!;
    const fields = ['cylinder: 2', 'at: [95, 70, -20]', 'direction: [0, 0.6, 0.8]'].filter((f) => !f.startsWith(name));
    const text = plugs(`    - { ${[...fields, field].join(', ')} }\n`);
    expect(faults(text)).toEqual([message]);
    expect(problemsOf(text)[0]!.line).toBe(18);
  });

  test.each([
    ['access: { bolts: 1 }', 'access.bolts: expected true or false, found 1'],
    ['access: { bolt_depth: 0 }', 'access.bolt_depth: expected a length over 0 mm and at most 500 mm, found 0 mm'],
    ['access: { bolt: true }', 'access.bolt: unknown field; did you mean "bolts"?'],
    ['access: true', 'access: expected a section with fields, found true'],
  ])('%j is refused', (field, message) => {
    expect(faults(`${BASE}${field}\n`)).toEqual([message]);
  });

  test('a socket no larger than the thread is refused', () => {
    expect(faults(swap(BASE, '[135, 0], thread: M8', '[135, 0], thread: M8, socket: 8'))).toEqual([
      'head.bolts.1.socket: expected a socket larger than the thread M8 (8 mm), found 8 mm',
    ]);
  });
});

describe('socket diameters', () => {
  // ISO 4032 widths across flats 10, 13, 16, 18; ISO 2725-1 sockets about 1.25 s + 3 for a 12.5 mm drive: from memory, low confidence.
  test.each([
    ['M6', 15.5],
    ['M8', 19.25],
    ['M10', 23],
    ['M12', 25.5],
  ] as const)('%s', (thread, diameter) => {
    expect(socketDiameter(thread)).toBe(diameter);
  });

  // 1/2, 9/16 and 5/8 in across flats: from memory.
  test.each([
    ['5/16', 1 / 2],
    ['3/8', 9 / 16],
    ['7/16', 5 / 8],
  ] as const)('%s in', (thread, flats) => {
    expect(socketDiameter(thread)).toBeCloseTo(1.25 * flats * 25.4 + 3, 12);
  });

  test('every thread of the table has a socket well larger than itself', () => {
    for (const thread of BOLT_THREADS) expect(socketDiameter(thread)).toBeGreaterThan(1.8 * threadDiameter(thread));
  });
});

import { describe, expect, test } from 'vitest';
import { circleOf } from '../../../src/geometry/outline/make.js';
import { outlineArea, outlineBounds } from '../../../src/geometry/outline/measure.js';
import { validateOutline } from '../../../src/geometry/outline/valid.js';
import { circle, dxfWith, type Groups, polyline } from '../../support/dxf-text.js';
import { headFault, headOf } from '../../support/trace-plan.js';

/** An oval 40 x 30 mm as one closed polyline. */
const oval = (x: number, y: number, layer = 'PORTS'): Groups =>
  polyline(
    [
      [x - 5, y - 15],
      [x + 5, y - 15, 1],
      [x + 5, y + 15],
      [x - 5, y + 15, 1],
    ],
    layer,
  );

/** Two oval ports 95 mm apart and five holes of 9 mm; a gasket of our own, 500, 300 off the origin. */
const PORTS = [oval(595, 300), oval(500, 300)];
const HOLES = [460, 547.5, 635].flatMap((x, i) => [circle(x, i === 1 ? 275 : 300, 4.5, 'BOLTS')]);
const EDGE = polyline(
  [
    [440, 260],
    [660, 260],
    [660, 340],
    [440, 340],
  ],
  'EDGE',
);

const files = (entities: readonly Groups[], units = 4) => ({ 'g.dxf': dxfWith(entities, units) });
const WHOLE = files([...PORTS, ...HOLES, EDGE]);
const FIELDS = 'file: g.dxf, origin: [500, 300]';

const places = (list: readonly { readonly at: readonly [number, number] }[]) =>
  list.map(({ at }) => at.map((v) => +v.toFixed(6) + 0));

describe('a whole head from one drawing', () => {
  test('closed contours are ports from left to right, small round ones bolt holes, what holds them is the edge', () => {
    const plan = headOf(FIELDS, WHOLE);
    expect(plan.ports.map((p) => p.cylinder)).toEqual([1, 2]);
    expect(places(plan.ports)).toEqual([
      [0, 0],
      [95, 0],
    ]);
    for (const p of plan.ports) {
      validateOutline(p.outline);
      expect(outlineArea(p.outline)).toBeCloseTo(300 + Math.PI * 225, 6);
      expect(p.frame.z).toEqual([0, 0, 1]);
    }
    const [head] = plan.heads;
    expect(places(head!.bolts)).toEqual([
      [-40, 0],
      [47.5, -25],
      [135, 0],
    ]);
    for (const b of head!.bolts) {
      expect(b.thread).toBe('M8');
      expect(b.holeDiameter).toBeCloseTo(9, 9);
    }
    expect(plan.notes).toEqual([
      'g.dxf: 2 ports and 3 bolt holes are traced',
      "g.dxf: LWPOLYLINE number 6 (line 88) holds other contours and is left out: the gasket's edge".replace(
        /line \d+/,
        /line \d+/.exec(plan.notes[1]!)![0],
      ),
    ]);
  });

  test('mirrored, then turned about the origin', () => {
    const mirrored = headOf(`${FIELDS}, mirror: true`, WHOLE);
    expect(places(mirrored.ports)).toEqual([
      [-95, 0],
      [0, 0],
    ]);
    expect(places(mirrored.heads[0]!.bolts)).toEqual([
      [-135, 0],
      [-47.5, -25],
      [40, 0],
    ]);
    const turned = headOf(`${FIELDS}, rotation: 180`, WHOLE);
    expect(places(turned.heads[0]!.bolts)).toEqual([
      [-135, 0],
      [-47.5, 25],
      [40, 0],
    ]);
    const up = headOf(`${FIELDS}, rotation: 90`, files([...PORTS.map((p) => p), ...HOLES]));
    expect(places(up.ports)).toEqual([
      [0, 0],
      [0, 95],
    ]);
    const { from, to } = outlineBounds(up.ports[0]!.outline);
    expect([to[0] - from[0], to[1] - from[1]].map((v) => +v.toFixed(6))).toEqual([30, 40]);
  });

  test('cylinders by a list, left to right', () => {
    const plan = headOf(`${FIELDS}, cylinders: [2, 1]`, WHOLE);
    expect(plan.ports.map((p) => [p.cylinder, +p.at[0].toFixed(6)])).toEqual([
      [1, 95],
      [2, 0],
    ]);
  });

  test('by layers: others are not looked at', () => {
    const odd = [
      ...PORTS,
      ...HOLES,
      polyline(
        [
          [0, 0],
          [5, 0],
          [5, 5],
        ],
        'MARKS',
      ),
      circle(0, 0, 3, 'MARKS'),
    ];
    const plan = headOf(`${FIELDS}, ports_layer: ports, bolts_layer: bolts`, files(odd));
    expect(plan.ports).toHaveLength(2);
    expect(plan.heads[0]!.bolts).toHaveLength(3);
  });

  test('round ports, and holes of polygons or of arcs', () => {
    const many = polyline(
      Array.from(
        { length: 48 },
        (_, i) => [460 + 4.5 * Math.cos((i * Math.PI) / 24), 300 + 4.5 * Math.sin((i * Math.PI) / 24)] as const,
      ),
    );
    const halves = polyline([
      [630.5, 300, 1],
      [639.5, 300, 1],
    ]);
    const plan = headOf(FIELDS, files([circle(500, 300, 19), circle(595, 300, 19), many, halves]));
    expect(circleOf(plan.ports[1]!.outline)!.diameter).toBeCloseTo(38, 9);
    expect(plan.heads[0]!.bolts.map((b) => +b.holeDiameter.toFixed(6))).toEqual([9, 9]);
  });

  test.each([
    [6.6, 'M6'],
    [8.5, 'M8'],
    [10, 'M8'],
    [11, 'M10'],
    [13.4, 'M12'],
  ])('a hole of %d mm is for %s by ISO 273', (diameter, thread) => {
    const plan = headOf(FIELDS, files([...PORTS, circle(460, 300, diameter / 2)]));
    expect(plan.heads[0]!.bolts).toMatchObject([{ thread, holeDiameter: diameter }]);
  });

  test('in inches holes are for inch threads; a thread given stands', () => {
    const inch = (list: readonly Groups[]) =>
      list.map((g) => g.map(([code, v]) => [code, code >= 10 && code <= 40 ? +v / 25.4 : v] as const));
    const drawing = files(inch([...PORTS, circle(460, 300, 5.16)]), 1);
    const origin = `file: g.dxf, origin: ["${500 / 25.4} in", "${300 / 25.4} in"]`;
    expect(headOf(origin, drawing).heads[0]!.bolts[0]!.thread).toBe('3/8');
    expect(headOf(`${origin}, thread: M8`, drawing).heads[0]!.bolts[0]!.thread).toBe('M8');
  });

  test('bolts may be listed beside the trace, dense ports are fitted and said', () => {
    const many = polyline(
      Array.from(
        { length: 200 },
        (_, i) => [500 + 20 * Math.cos((i * Math.PI) / 100), 300 + 16 * Math.sin((i * Math.PI) / 100)] as const,
      ),
    );
    const plan = headOf(FIELDS, files([many, PORTS[0]!]), '  bolts:\n    - { at: [-40, 0], thread: M8 }\n');
    expect(plan.heads[0]!.bolts).toHaveLength(1);
    expect(
      plan.notes.some((n) => /^port of cylinder 1: 200 points of g\.dxf are fitted by \d+ lines and arcs/.test(n)),
    ).toBe(true);
  });
});

describe('what is no head', () => {
  const fault = (entities: readonly Groups[], fields = '') =>
    headFault(FIELDS + fields, files(entities)).replace('file: cannot use "g.dxf": ', '');

  test.each([
    ['no port', HOLES, '', 'it has no contour that may be a port'],
    [
      'too few cylinders',
      PORTS,
      ', cylinders: [1]',
      'cylinders: expected 2 cylinders, one for each port at 0, 0; 95, 0 mm, found 1',
    ],
    [
      'a slot',
      [
        ...PORTS,
        polyline([
          [450, 300],
          [455, 300],
          [455, 306],
          [450, 306],
        ]),
      ],
      '',
      /^LWPOLYLINE number 3 \(line \d+\) at 452\.5, 303 mm is 5 x 6 mm: too small for a port and not round as a bolt hole; move it to another layer and name ports_layer and bolts_layer$/,
    ],
    [
      'a hole no thread has',
      [...PORTS, circle(460, 300, 7.8)],
      '',
      /^thread: missing; the hole of 15\.6 mm, CIRCLE number 3 \(line \d+\) at 460, 300 mm, is no clearance hole of M6, M8, M10 or M12; give "thread"$/,
    ],
    [
      'a thread the hole does not pass',
      [...PORTS, ...HOLES],
      ', thread: M10',
      /^thread: the hole of 9 mm, CIRCLE number 3 \(line \d+\) at 460, 300 mm, does not pass M10 \(10 mm\)$/,
    ],
    [
      'a large hole on the layer of the bolts',
      [...PORTS, circle(460, 300, 9, 'BOLTS')],
      ', bolts_layer: BOLTS',
      /^CIRCLE number 3 \(line \d+\) at 460, 300 mm on the layer of the bolt holes is 18 mm across, over bolt_max_diameter \(16 mm\)$/,
    ],
    [
      'a port that crosses itself',
      [
        PORTS[0]!,
        polyline([
          [480, 280],
          [520, 320],
          [520, 280],
          [481, 320],
        ]),
      ],
      '',
      /^the contour crosses itself at 5\d\d\.?\d*, 30\d\.?\d* mm: sides 1 and 3 of LWPOLYLINE number 2 \(line 44\)$/,
    ],
    [
      '17 ports',
      Array.from({ length: 17 }, (_, i) => oval(500 + 60 * i, 300)),
      '',
      'it has 17 contours that may be ports, over 16; name ports_layer',
    ],
  ] as const)('%s', (_, entities, fields, message) => {
    const found = fault(entities, fields);
    if (typeof message === 'string') expect(found).toBe(message);
    else expect(found).toMatch(message);
  });

  test('rules across the plan are told at the trace', () => {
    expect(headFault(FIELDS, files([...PORTS, oval(690, 300)]))).toBe(
      'file: port 3: expected a cylinder from 1 to 2 (engine.cylinders), found 3',
    );
    const listed = '  bolts:\n    - { at: [-40, 0], thread: M8 }\n';
    expect(headFault(FIELDS, WHOLE, listed)).toBe('file: bolt 2: this bolt stands at the same place as head.bolts.0');
  });

  test('ports and trace together, or neither', () => {
    const listed = '  ports:\n    - { cylinder: 1, at: [0, 0], shape: { kind: round, diameter: 38 } }\n';
    expect(headFault(FIELDS, WHOLE, listed)).toBe('head.ports: give the ports or a trace that has them, not both');
    expect(headFault('file: g.dxf', WHOLE)).toBe('origin: missing; expected a list such as [1, 2, 3]');
  });
});

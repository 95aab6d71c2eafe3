import type { DxfShape } from './shapes.js';
import type { DxfSheet } from './sheet.js';

type Tag = readonly [code: number, value: string | number];

const UNIT_CODE = { in: 1, mm: 4 } as const;

/**
 * The drawing as DXF of version AC1009 (release 12): no handles, no subclass marks, and polylines as POLYLINE, VERTEX and SEQEND, the
 * light ones being younger. Group codes: Autodesk DXF reference for release 12, from memory. $INSUNITS is younger too; readers that do not know it pass it over,
 * those that do then get inches right.
 */
export function r12Text(sheet: DxfSheet): string {
  const tags: Tag[] = [
    ...section('HEADER', header(sheet)),
    ...section('TABLES', [...lineTypes(), ...layers(sheet), ...styles()]),
    ...section('BLOCKS', []),
    ...section(
      'ENTITIES',
      sheet.shapes.flatMap(({ layer, shape }) => entity(layer, shape)),
    ),
    [0, 'EOF'],
  ];
  return tags.map(([code, value]) => `${String(code).padStart(3)}\n${value}\n`).join('');
}

const section = (name: string, tags: readonly Tag[]): Tag[] => [[0, 'SECTION'], [2, name], ...tags, [0, 'ENDSEC']];

const at = (code: number, x: number, y: number): Tag[] => [
  [code, x],
  [code + 10, y],
  [code + 20, 0],
];

function header({ units, from, to }: DxfSheet): Tag[] {
  return [
    [9, '$ACADVER'],
    [1, 'AC1009'],
    [9, '$INSUNITS'],
    [70, UNIT_CODE[units]],
    [9, '$MEASUREMENT'],
    [70, units === 'mm' ? 1 : 0],
    [9, '$EXTMIN'],
    ...at(10, from[0], from[1]),
    [9, '$EXTMAX'],
    ...at(10, to[0], to[1]),
  ];
}

const table = (name: string, rows: readonly (readonly Tag[])[]): Tag[] => [
  [0, 'TABLE'],
  [2, name],
  [70, rows.length],
  ...rows.flat(),
  [0, 'ENDTAB'],
];

const lineTypes = (): Tag[] =>
  table('LTYPE', [
    [
      [0, 'LTYPE'],
      [2, 'CONTINUOUS'],
      [70, 0],
      [3, 'Solid line'],
      [72, 65],
      [73, 0],
      [40, 0],
    ],
  ]);

const layers = (sheet: DxfSheet): Tag[] =>
  table(
    'LAYER',
    [{ name: '0', colour: 7 }, ...sheet.layers].map(({ name, colour }): Tag[] => [
      [0, 'LAYER'],
      [2, name],
      [70, 0],
      [62, colour],
      [6, 'CONTINUOUS'],
    ]),
  );

const styles = (): Tag[] =>
  table('STYLE', [
    [
      [0, 'STYLE'],
      [2, 'STANDARD'],
      [70, 0],
      [40, 0],
      [41, 1],
      [50, 0],
      [71, 0],
      [42, 4],
      [3, 'txt'],
      [4, ''],
    ],
  ]);

const ALIGN = { left: 0, center: 1, right: 2 } as const;

function entity(layer: string, s: DxfShape): Tag[] {
  const start = (name: string): Tag[] => [
    [0, name],
    [8, layer],
  ];
  switch (s.kind) {
    case 'line':
      return [...start('LINE'), ...at(10, ...s.from), ...at(11, ...s.to)];
    case 'circle':
      return [...start('CIRCLE'), ...at(10, ...s.centre), [40, s.radius]];
    case 'arc':
      return [...start('ARC'), ...at(10, ...s.centre), [40, s.radius], [50, s.start], [51, s.end]];
    case 'point':
      return [...start('POINT'), ...at(10, ...s.at)];
    case 'polyline':
      return [
        ...start('POLYLINE'),
        [66, 1],
        ...at(10, 0, 0),
        [70, s.closed ? 1 : 0],
        ...s.vertices.flatMap(([x, y, bulge]): Tag[] => [
          ...start('VERTEX'),
          ...at(10, x, y),
          ...(bulge === 0 ? [] : ([[42, bulge]] as const)),
        ]),
        ...start('SEQEND'),
      ];
    case 'text':
      return [
        ...start('TEXT'),
        ...at(10, ...s.at),
        [40, s.height],
        [1, s.words],
        ...(s.align === 'left' ? [] : ([[72, ALIGN[s.align]], ...at(11, ...s.at)] as const)),
      ];
  }
}

/** The text of a DXF by hand: group codes and values, one pair a line each. Values are written as they are. */
export type Groups = readonly (readonly [code: number, value: string | number])[];

const lines = (groups: Groups): string => groups.map(([code, value]) => `${code}\n${value}\n`).join('');

/** A DXF with these entities, in mm unless said otherwise; null leaves the unit out. */
export function dxfWith(entities: readonly Groups[], units: number | null = 4, extra = ''): string {
  const header: Groups =
    units === null
      ? []
      : [
          [0, 'SECTION'],
          [2, 'HEADER'],
          [9, '$INSUNITS'],
          [70, units],
          [0, 'ENDSEC'],
        ];
  const body = entities.map(lines).join('');
  return `${lines(header)}${extra}${lines([
    [0, 'SECTION'],
    [2, 'ENTITIES'],
  ])}${body}${lines([
    [0, 'ENDSEC'],
    [0, 'EOF'],
  ])}`;
}

/** A LINE; layer 0 unless said otherwise. */
export const line = (
  a: readonly [number, number],
  b: readonly [number, number],
  layer = '0',
  handle?: string,
): Groups => [
  [0, 'LINE'],
  ...(handle === undefined ? [] : [[5, handle] as const]),
  [8, layer],
  [10, a[0]],
  [20, a[1]],
  [11, b[0]],
  [21, b[1]],
];

export const circle = (x: number, y: number, radius: number, layer = '0'): Groups => [
  [0, 'CIRCLE'],
  [8, layer],
  [10, x],
  [20, y],
  [40, radius],
];

/** A closed LWPOLYLINE of corners x, y and bulge. */
export const polyline = (corners: readonly (readonly [number, number, number?])[], layer = '0', closed = 1): Groups => [
  [0, 'LWPOLYLINE'],
  [8, layer],
  [90, corners.length],
  [70, closed],
  ...corners.flatMap(([x, y, bulge = 0]) => [
    [10, x] as const,
    [20, y] as const,
    ...(bulge === 0 ? [] : [[42, bulge] as const]),
  ]),
];

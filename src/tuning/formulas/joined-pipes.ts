import { INCH, INPUT, type SizeRule } from './rule.js';

const SOURCE = "Smith's book via a reader's notes";
const DOUBT = 'the book itself was not seen';

/** Diameter, mm, of the circle with an area, mm2. */
const roundOf = (area: number): number => Math.sqrt((4 * area) / Math.PI);

/** Least bore of a primary: the port, taken round, and an eighth of an inch. */
export const PORT_BORE: SizeRule = {
  title: 'port and 1/8 in',
  formula: 'ID at least the port (as a circle) + 1/8 in',
  source: SOURCE,
  doubt: DOUBT,
  bound: 'at least',
  inputs: (t) => [INPUT.port(t)],
  value: (t) => roundOf(t.portArea) + INCH / 8,
};

/** Farthest place from the valve at which cylinders 1 and 4, and 2 and 3, of a four join. */
export const PAIRS_JOIN: SizeRule = {
  title: '4-2-1, pairs join',
  formula: 'at most 18 in from the valve',
  source: SOURCE,
  doubt: DOUBT,
  bound: 'at most',
  inputs: () => [],
  value: () => 18 * INCH,
};

/** Length of the tube of a joined pair. */
export const JOINED_PIPE: SizeRule = {
  title: '4-2-1, joined tube',
  formula: 'about 24 in',
  source: SOURCE,
  doubt: DOUBT,
  inputs: () => [],
  value: () => 24 * INCH,
};

/** Length, mm, of a collector of such a volume and a bore, mm. */
const collectorLength = (times: number, bound: 'at least' | 'at most', bore: number): SizeRule => ({
  title: `collector of ${times} cylinders`,
  formula: `length = ${times} x cylinder / bore area`,
  source: SOURCE,
  doubt: `${DOUBT}; whether the pipe behind counts as collector is not said`,
  bound,
  inputs: (t) => [INPUT.cylinder(t), { name: 'outlet bore', value: bore, unit: 'mm' }],
  value: (t) => (times * t.cylinder) / ((Math.PI / 4) * bore * bore),
});

/** Shortest and longest collector of an outlet bore, mm, by its volume: 12 to 15 times one cylinder. */
export const collectorLengths = (bore: number): readonly SizeRule[] => [
  collectorLength(12, 'at least', bore),
  collectorLength(15, 'at most', bore),
];

import { wrapPi } from '../../geometry/angle.js';
import type { ConvexRim } from '../../geometry/development/convex-rim.js';
import { type DevelopedBand, developBand, type Ruling } from '../../geometry/development/developed-band.js';
import { coneSector, frustumOutline } from '../../geometry/development/frustum.js';
import { outlineBounds } from '../../geometry/outline/measure.js';
import { translateOutline } from '../../geometry/outline/transform.js';
import { lerp2, sub2, type Vec2 } from '../../geometry/vec2.js';
import type { LengthUnit } from '../../params/units.js';
import type { Pattern, PatternLine } from './pattern.js';
import { EDGE_TOLERANCE } from './wrap.js';

/** What is said of a piece cut from sheet. */
export interface SheetSpec {
  readonly name: string;
  readonly title: string;
  readonly count: number;
  /** mm. */
  readonly thickness: number;
  readonly material: string;
  /** Unit its words say lengths in. */
  readonly units: LengthUnit;
  readonly notes: readonly string[];
}

/** Bend lines of a cone a turn: about one every ten degrees. */
const BENDS = 36;

const SHEET_NOTES = [
  'Developed at the middle of the sheet: cut to the line, no allowance for the seam or for bending',
  'Seen from outside: bend away from you along the lines',
];

/** A right frustum between middle diameters, mm: exact arcs. Throws RangeError as coneSector does. */
export function frustumPattern(spec: SheetSpec, from: number, to: number, height: number): Pattern {
  const outline = frustumOutline(from, to, height);
  const bounds = outlineBounds(outline);
  const place = (p: Vec2): Vec2 => sub2(p, bounds.from);
  return {
    ...sheetOf(spec),
    outline: translateOutline(outline, [-bounds.from[0], -bounds.from[1]]),
    lines: Array.from({ length: BENDS - 1 }, (_, i): PatternLine => {
      const middle = 2 * (i + 1) === BENDS;
      return {
        kind: middle ? 'reference' : 'bend',
        label: middle ? 'opposite the seam' : '',
        points: generator((i + 1) / BENDS, from, to, height).map(place),
      };
    }),
    deviation: 0,
    notes: [...spec.notes, ...SHEET_NOTES],
  };
}

/** Ends of the generator a part of the way round. */
function generator(part: number, from: number, to: number, height: number): readonly [Vec2, Vec2] {
  const { slant, inner, outer, angle } = coneSector(from, to, height);
  if (angle === 0) {
    const x = Math.PI * from * (part - 0.5);
    return [
      [x, 0],
      [x, slant],
    ];
  }
  const a = Math.PI / 2 + angle * (0.5 - part);
  return [
    [inner * Math.cos(a), inner * Math.sin(a)],
    [outer * Math.cos(a), outer * Math.sin(a)],
  ];
}

/** A direction round a transition that is marked on it. */
export interface MarkedNormal {
  /** rad. */
  readonly normal: number;
  readonly label: string;
}

/**
 * A transition between two convex rims of the sheet's middle, mm, with its bend lines; the first mark is the reference line. Throws
 * RangeError as developBand does.
 */
export function transitionPattern(
  spec: SheetSpec,
  rims: { readonly low: ConvexRim; readonly high: ConvexRim; readonly height: number },
  marks: readonly MarkedNormal[],
): Pattern {
  const band = developBand(rims.low, rims.high, rims.height, EDGE_TOLERANCE);
  const bounds = outlineBounds(band.outline);
  const place = (p: Vec2): Vec2 => sub2(p, bounds.from);
  const lines = bandLines(band, marks);
  return {
    ...sheetOf(spec),
    outline: translateOutline(band.outline, [-bounds.from[0], -bounds.from[1]]),
    lines: lines.map((l) => ({ ...l, points: l.points.map(place) })),
    deviation: band.deviation,
    notes: [...spec.notes, ...SHEET_NOTES],
  };
}

/** Borders of the flats, and lines that part each piece of cone evenly, by an even number so that its middle has one. */
function bandLines(band: DevelopedBand, marks: readonly MarkedNormal[]): PatternLine[] {
  const { rulings } = band;
  const marked = marks.map(({ normal, label }, k): PatternLine => {
    const kind = k === 0 ? 'reference' : 'bend';
    const flat = rulings.findIndex((r, i) => i > 0 && r.before === 'flat' && isAt(r, normal));
    // The middle of a flat is marked, not bent.
    if (flat > 0) return lineOf(middleOf(rulings[flat - 1]!, rulings[flat]!), k === 0 ? kind : 'quarter', label);
    return lineOf(rulings[nearest(rulings, normal)]!, kind, label);
  });
  const taken = new Set(marked.map((l) => keyOf(l)));
  const bends = bendsOf(band).map((i) => lineOf(rulings[i]!, 'bend', ''));
  return [...bends.filter((l) => !taken.has(keyOf(l))), ...marked];
}

const isAt = (r: Ruling, normal: number): boolean => Math.abs(wrapPi(r.normal - normal)) < 1e-6;

const nearest = (rulings: readonly Ruling[], normal: number): number => {
  const off = rulings.map((r) => Math.abs(wrapPi(r.normal - normal)));
  return off.indexOf(Math.min(...off));
};

/** From the middle of one edge of a flat to the middle of the other, or to its tip. */
const middleOf = (a: Ruling, b: Ruling): Pick<Ruling, 'flatLow' | 'flatHigh'> => ({
  flatLow: lerp2(a.flatLow, b.flatLow, 0.5),
  flatHigh: lerp2(a.flatHigh, b.flatHigh, 0.5),
});

const keyOf = ({ points }: PatternLine): string =>
  points
    .flat()
    .map((v) => v.toFixed(3))
    .join(' ');

/** Numbers of the rulings to bend along, without the seam. */
function bendsOf({ rulings }: DevelopedBand): number[] {
  const bends = new Set<number>();
  for (let from = 0; from < rulings.length - 1; ) {
    let to = from + 1;
    if (rulings[to]!.before === 'cone') {
      while (to < rulings.length - 1 && rulings[to + 1]!.before === 'cone') to++;
      const parts = Math.max(
        2,
        2 * Math.round(((rulings[to]!.normal - rulings[from]!.normal) * BENDS) / (4 * Math.PI)),
      );
      for (let k = 1; k < parts; k++) bends.add(from + Math.round(((to - from) * k) / parts));
    }
    bends.add(from).add(to);
    from = to;
  }
  return [...bends].filter((i) => i > 0 && i < rulings.length - 1).sort((a, b) => a - b);
}

const lineOf = (
  { flatLow, flatHigh }: Pick<Ruling, 'flatLow' | 'flatHigh'>,
  kind: PatternLine['kind'],
  label: string,
): PatternLine => ({
  kind,
  label,
  points: [flatLow, flatHigh],
});

const sheetOf = ({ name, title, count, thickness, material, units }: SheetSpec) =>
  ({
    name,
    title,
    use: 'sheet',
    count,
    holes: [],
    tab: null,
    tube: null,
    plate: { thickness, material },
    units,
  }) as const;

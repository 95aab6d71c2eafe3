import { circleOutline, polygonOutline } from '../../src/geometry/outline/make.js';
import type { OutlineVertex } from '../../src/geometry/outline/outline.js';
import type { Vec2 } from '../../src/geometry/vec2.js';
import type { Pattern } from '../../src/parts/patterns/pattern.js';
import type { StockBill, StockItem } from '../../src/parts/stock/bill.js';
import type { TubeCuts } from '../../src/parts/tube/tube-cuts.js';

/** A mitre's wrap: one wave of a cosine over the tube's girth. Tube 42.4 mm, mitre of 22.5 degrees. */
export function waveWrap(name = 'wave', od = 42.4, amplitude = 8.78): Pattern {
  const round = Math.PI * od;
  const edge = Array.from({ length: 181 }, (_, i): Vec2 => {
    const x = (round * i) / 180;
    return [x, 60 + amplitude * Math.cos((2 * Math.PI * x) / round)];
  });
  const top = (x: number): number => 60 + amplitude * Math.cos((2 * Math.PI * x) / round);
  const quarter = (k: number): Pattern['lines'][number] => ({
    kind: k === 0 ? 'reference' : 'quarter',
    points: [
      [(round * k) / 4, 0],
      [(round * k) / 4, top((round * k) / 4)],
    ],
    label: k === 0 ? 'reference' : `${90 * k} deg`,
  });
  return {
    name,
    title: 'Mitre of an inlet tube',
    use: 'wrap',
    count: 4,
    outline: polygonOutline([[0, 0], [round, 0], ...[...edge].reverse()]),
    holes: [],
    tab: polygonOutline([
      [round, 0],
      [round + 12, 3],
      [round + 12, 62],
      [round, 60 + amplitude],
    ]),
    lines: [0, 1, 2, 3].map(quarter),
    tube: { od, wall: 1.6, side: 'outside' },
    plate: null,
    units: 'mm',
    deviation: 0.004,
    notes: ['The long side of the wave is the outside of the bend.'],
  };
}

/** A frustum's sector: radii 180.9 and 289.4 mm, 126.4 degrees, with a round window; larger than a page. */
export function sector(name = 'cone'): Pattern {
  const [inner, outer, half] = [180.9, 289.4, (126.4 / 2) * (Math.PI / 180)];
  const at = (r: number, a: number): Vec2 => [r * Math.sin(a), r * Math.cos(a)];
  const bulge = Math.tan(half / 2);
  const corner = ([x, y]: Vec2, b: number): OutlineVertex => ({ x, y, bulge: b });
  return {
    name,
    title: 'Cone from the merge to the outlet',
    use: 'sheet',
    count: 1,
    outline: {
      vertices: [
        corner(at(outer, half), bulge),
        corner(at(outer, -half), 0),
        corner(at(inner, -half), -bulge),
        corner(at(inner, half), 0),
      ],
    },
    holes: [circleOutline([0, 235], 30)],
    tab: null,
    lines: [-0.5, 0, 0.5].map((t) => ({
      kind: 'bend' as const,
      points: [at(inner, half * t), at(outer, half * t)],
      label: `bend ${t}`,
    })),
    tube: null,
    plate: { thickness: 1.5, material: '304 stainless' },
    units: 'mm',
    deviation: 0,
    notes: [],
  };
}

/** Every straight from one stick, every bend from a U-bend of its own. */
export function plainBill(cuts: readonly TubeCuts[]): StockBill {
  const pieces = cuts.flatMap((c) => c.pieces);
  const { od, wall } = pieces[0]!;
  const stick: StockItem = {
    name: `Stick ${od} x ${wall}`,
    kind: 'stick',
    od,
    wall,
    material: '304',
    length: 3000,
    bend: null,
    price: 42.5,
    available: null,
  };
  const clr = pieces.find((p) => p.clr !== null)?.clr ?? 60;
  const bend: StockItem = {
    name: `U-bend ${od} x ${wall}, CLR ${clr}, 180 deg, legs 60 mm`,
    kind: 'bend',
    od,
    wall,
    material: '304',
    length: Math.PI * clr + 120,
    bend: { clr, angle: Math.PI, leg: 60, shortLeg: 60 },
    price: 18,
    available: 12,
  };
  let at = 0;
  const straights = pieces.filter((p) => p.angle === null);
  const cutsOfStick = straights.flatMap((p) => {
    const from = at;
    at += p.length + 2;
    return from + p.length <= stick.length ? [{ piece: p.piece.name, from, to: from + p.length, reversed: false }] : [];
  });
  const bends = pieces
    .filter((p) => p.angle !== null && 60 + p.clr! * p.angle + p.legAfter <= bend.length)
    .map((p, i) => ({
      number: i + 2,
      item: bend,
      cuts: [
        { piece: p.piece.name, from: 60 - p.legBefore, to: 60 + p.clr! * p.angle! + p.legAfter, reversed: i % 2 === 1 },
      ],
      offcut: 50,
      offcuts: [],
      waste: 80,
    }));
  return {
    uses: [{ number: 1, item: stick, cuts: cutsOfStick, offcut: 210.5, offcuts: [], waste: 260 }, ...bends],
    shopping: [
      { item: stick, count: 1, price: 42.5 },
      { item: bend, count: bends.length, price: 18 * bends.length },
    ],
    minimised: 'price',
    value: 42.5 + 18 * bends.length,
    bound: 42.5 + 18 * bends.length,
    optimal: true,
    firstFit: null,
    price: 42.5 + 18 * bends.length,
    currency: 'EUR',
    unmade: [],
    tubeMass: 5.1,
    weldLength: 2400,
    fillerMass: 0.12,
    purgeVolume: 4.2,
  };
}

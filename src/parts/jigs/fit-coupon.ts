import { type Frame, WORLD } from '../../geometry/frame.js';
import { difference, hullOfPoints, placed, type Solid, union } from '../../geometry/solid/solid.js';
import { bar } from '../../geometry/solid/solid-shapes.js';
import { type Strokes, textSolid, textStrokes } from '../../geometry/solid/text-solid.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { Vec3 } from '../../geometry/vec3.js';
import type { JigPlan } from '../../params/plan.js';
import type { SolidPart } from '../part.js';
import { printedPart } from '../printed-part.js';
import { keyFor, socket, socketRoom, spigot } from './key.js';
import { RAISED } from './printed-writing.js';
import { STRUT_SIZES } from './strut-sizes.js';

/** Gaps of the coupon about the plan's, mm a side. Common practice: slides print well somewhere from 0.1 to 0.3. */
const STEPS = [-0.1, -0.05, 0, 0.05, 0.1];

/** Diameter of the bar whose key is tried where the plan leaves the struts' to the program, mm: the thinnest. */
const barOf = (jig: JigPlan): number => jig.strut ?? Math.min(...STRUT_SIZES);

/** Wall between sockets and to the outside, height of the figures and room round them, and height of the key's grip, mm. */
const WALL = 3;
const FIGURES = 4;
const CLEAR = 1.5;
const GRIP = 8;

/** The gaps per side on the coupon, mm: about the plan's fit, none below zero, none twice. */
export const couponFits = (fit: number): number[] => [
  ...new Set(STEPS.map((d) => Math.max(0, Math.round((fit + d) * 1000) / 1000))),
];

/**
 * The fit coupon, printed before all else: a block with the socket of the struts' key at several gaps per side, each with its
 * figure in mm, and the key to try in them. The gap at which it slides is what the plan's `fit` should be on that printer.
 */
export function fitCoupon(jig: JigPlan): SolidPart[] {
  const key = keyFor(barOf(jig), jig.fit);
  const grip = union(
    chamferedBar(barOf(jig) / 2, GRIP, jig.chamfer),
    spigot(key, jig.keyLength, { ...WORLD, origin: [0, 0, GRIP] }),
  );
  const part = (name: string, title: string, solid: Solid): SolidPart =>
    printedPart({ name, kind: 'fit-coupon', title, solid, at: WORLD, up: WORLD }, jig.bed);
  return [
    part('fit-block', 'Fit coupon: sockets with the gap per side in mm beside each', block(jig)),
    part('fit-key', 'Fit coupon: key to try in the sockets', grip),
  ];
}

/** Few strokes, quick to print: '.15' and '.2', '0' for no gap at all. */
export const figuresOf = (fit: number): string => String(fit).replace(/^0(?=\.)/, '');

interface Cell {
  readonly fit: number;
  readonly figures: Strokes;
}

function block(jig: JigPlan): Solid {
  const { bed, fit, keyLength, chamfer } = jig;
  const key = keyFor(barOf(jig), fit);
  const cells = couponFits(fit).map((f): Cell => ({ fit: f, figures: textStrokes(figuresOf(f), FIGURES) }));
  const reach = key.radius + Math.max(...cells.map((c) => c.fit));
  const wide = Math.max(2 * reach + WALL, ...cells.map((c) => c.figures.width + 2 * CLEAR));
  const deep = 2 * reach + WALL + FIGURES + CLEAR;
  const room = Math.max(bed[0], bed[1]) - WALL;
  const columns = Math.max(1, Math.min(cells.length, Math.floor(room / wide)));
  const rows = Math.ceil(cells.length / columns);
  const top = socketRoom(keyLength);
  // sockets open upwards; a frame's z runs into the part, its y to the flat, which faces away from the figures
  const mouth = (at: Vec2): Frame => ({ origin: [...at, top], x: [-1, 0, 0], y: [0, 1, 0], z: [0, 0, -1] });
  const middle = (i: number): Vec2 => [
    (i % columns) * wide + (wide + WALL) / 2,
    -Math.floor(i / columns) * deep - WALL - reach,
  ];
  const body = chamferedBox([0, -rows * deep - WALL], [columns * wide + WALL, 0], top, chamfer);
  const sockets = cells.map(({ fit: f }, i) => socket({ ...key, fit: f }, keyLength, mouth(middle(i))));
  const figures = cells.map(({ figures: strokes }, i) => {
    const [x, y] = middle(i);
    const at: Vec3 = [x, y - reach - CLEAR - FIGURES / 2, top];
    return placed(textSolid(strokes, -RAISED, RAISED), { ...WORLD, origin: at });
  });
  return union(difference(body, ...sockets), ...figures);
}

/** A box on z = 0 whose edge on the bed is chamfered. */
function chamferedBox([x0, y0]: Vec2, [x1, y1]: Vec2, height: number, chamfer: number): Solid {
  const ring = (z: number, inset: number): Vec3[] =>
    [x0 + inset, x1 - inset].flatMap((x) => [y0 + inset, y1 - inset].map((y): Vec3 => [x, y, z]));
  return hullOfPoints([...ring(0, chamfer), ...ring(Math.min(chamfer, height / 2), 0), ...ring(height, 0)]);
}

function chamferedBar(radius: number, height: number, chamfer: number): Solid {
  const c = Math.min(chamfer, radius / 4, height / 2);
  if (c === 0) return bar(radius, 0, height);
  return union(bar(radius - c, 0, c, radius), bar(radius, c, height));
}

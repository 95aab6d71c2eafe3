import {
  type Bar,
  type BarSection,
  type Base,
  chainCompliance,
  type Elastic,
  inverse,
  mostGive,
  roundSection,
  type Stiffness,
  together,
} from '../../geometry/compliance.js';
import { type Frame, pointFrom } from '../../geometry/frame.js';
import { headingAt, pathLength } from '../../geometry/path/path.js';
import { distance, type Vec3 } from '../../geometry/vec3.js';
import type { JigPlan } from '../../params/plan.js';
import type { RoutedTube } from '../../routing/routed.js';
import { type HolderBlock, reachOf } from './holder-block.js';
import { BAR_LEAN } from './keyed-bar.js';
import { type StrutLine, withNeck } from './strut-line.js';

/** A hand on the collector: N. Our own figure. */
export const HOLDER_LOAD = 5;

/** Most the inlets may move under it, mm. Our own figure: a gap to be tacked. */
export const MOST_DEFLECTION = 0.5;

/** PLA: from memory 2.3 to 3.5 GPa as printed; the low end. Poisson's ratio from memory. */
const PLA: Elastic = { modulus: 2300, poisson: 0.35 };

/** Chords along a dummy tube, mm. */
const CHORD = 10;

/** How a printed round bar counts: its walls full, its filling by the square of its share (Gibson and Ashby, Cellular Solids: open cells). */
function printedSection(radius: number, { print }: Pick<JigPlan, 'print'>): BarSection {
  return roundSection(radius, skinOf(radius, print), print.infill ** 2);
}

/** How much of a printed bar's radius is walls, mm: lines with round edges are laid closer than they are wide. */
const skinOf = (radius: number, { walls, lineWidth, layer }: JigPlan['print']): number =>
  Math.min(radius, Math.max(0, walls * (lineWidth - layer * (1 - Math.PI / 4))));

/** A strut lies on a flat: a circle of this share of its radius bends as much as the rest of the section does. */
const LEFT = flatRadius(BAR_LEAN);

/** Radius, for a bar of radius 1 with its underside cut off where it would lean out by `lean`, of the round bar that bends as easily. */
function flatRadius(lean: number): number {
  const t = Math.PI / 2 - lean;
  const [s, c] = [Math.sin(t), Math.cos(t)];
  const area = Math.PI - (t - s * c);
  const middle = (2 / 3) * s * s * s;
  // second moment of a segment about the circle's diameter, from any table of sections
  const bend = Math.PI / 4 - (t - s * c + 2 * s * s * s * c) / 4 - middle ** 2 / area;
  return Math.sqrt(Math.sqrt(bend / (Math.PI / 4)));
}

/** Plastic of a strut with its arm, mm3: walls full, filling by its share; bosses and pads, which differ little, left out. */
export function strutPlastic(block: HolderBlock, line: StrutLine, { print }: Pick<JigPlan, 'print'>): number {
  return barsOf(line, line.armRoot).reduce((sum, { from, to }, i, { length }) => {
    const radius = radiusAt(block, line, i, length, 1);
    return sum + distance(from, to) * roundSection(radius, skinOf(radius, print), print.infill).area;
  }, 0);
}

/** How one strut with its arm resists at the middle of the holder's inlets. The block itself counts as rigid, the foot as held. */
export function strutStiffness(block: HolderBlock, at: Frame, line: StrutLine, jig: Pick<JigPlan, 'print'>): Stiffness {
  const [c, s] = line.arm;
  const edge = Math.min(line.out, Math.max(0, reachOf(block, line.arm) - block.strut));
  const skin = pointFrom(at, [edge * c, edge * s, block.armHeight]);
  const bars = barsOf(line, skin).map(({ from, to }, i, { length }): Bar => {
    return { from, to, section: printedSection(radiusAt(block, line, i, length, LEFT), jig) };
  });
  return inverse(chainCompliance(at.origin, bars, PLA));
}

/** Arm, bars and neck of a strut in a row, the arm from where it begins. */
function barsOf({ points, neck }: StrutLine, begins: Vec3): { readonly from: Vec3; readonly to: Vec3 }[] {
  const ways: readonly Vec3[] = [begins, ...withNeck(points, neck)];
  return ways.slice(1).map((to, i) => ({ from: ways[i]!, to }));
}

/** Radius of the i-th of them; a bar's times `lying`. An arm is a millimetre wider all round than its strut, and stands upright in the print. */
function radiusAt({ strut }: HolderBlock, { foot }: StrutLine, i: number, count: number, lying: number): number {
  if (i === 0) return strut + 1;
  return i === count - 1 ? foot.thick : lying * strut;
}

/** How a dummy tube that is held at its start, or stands on the stem of the holder before, resists at the middle of this holder's inlets. */
export function tubeStiffness(
  at: Vec3,
  tube: Pick<RoutedTube, 'path' | 'sections'>,
  base: Base | null,
  jig: Pick<JigPlan, 'print' | 'tubeWall'>,
): Stiffness {
  const length = pathLength(tube.path);
  const n = Math.ceil(length / CHORD);
  const points = Array.from({ length: n + 1 }, (_, i) => headingAt(tube.path, (length * (n - i)) / n).point);
  const radius = Math.min(...tube.sections.map((s) => s.od)) / 2;
  const section =
    jig.tubeWall === null ? printedSection(radius, jig) : roundSection(radius, Math.min(jig.tubeWall, radius), 0);
  const bars = points.slice(1).map((to, i): Bar => ({ from: points[i]!, to, section }));
  return inverse(chainCompliance(at, bars, PLA, base));
}

/** The most the inlets move, mm, on these supports together, whichever way the load pulls; in the worst of several cases. */
export function deflectionOn(supports: readonly Stiffness[], cases: readonly Stiffness[] = []): number {
  const all = together(supports);
  const give = (k: Stiffness): number => mostGive(inverse(k), HOLDER_LOAD);
  return cases.length === 0 ? give(all) : Math.max(...cases.map((k) => give(together([all, k]))));
}

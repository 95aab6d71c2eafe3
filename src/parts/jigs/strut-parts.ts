import { frameFacing, WORLD } from '../../geometry/frame.js';
import { difference, hull, placed, type Solid, trimmed, union } from '../../geometry/solid/solid.js';
import { bar } from '../../geometry/solid/solid-shapes.js';
import { along, cross, length, perpendicularTo, scale, sub, unit, type Vec3 } from '../../geometry/vec3.js';
import type { Plan } from '../../params/plan.js';
import type { SolidPart } from '../part.js';
import { printedPart } from '../printed-part.js';
import { bossLength, type HolderBlock } from './holder-block.js';
import { type Foot, footBoss, footSolid } from './holder-foot.js';
import { keyFor, socket } from './key.js';
import { BAR_LEAN, barNormal, keyedBars } from './keyed-bar.js';
import type { StrutLine } from './strut-line.js';

/** Foot, bars and elbow of one strut. */
export function strutParts(plan: Plan, block: HolderBlock, line: StrutLine, name: string, number: number): SolidPart[] {
  const { bed } = plan.jig;
  const { points } = line;
  const label = `S${number}`;
  const { frame: head, plate } = line.foot;
  const back = scale(directionAt(points, points.length - 2), -1);
  const foot: Foot = {
    place: line.foot,
    direction: back,
    normal: barNormal(back),
    block,
    key: keyFor(2 * line.foot.thick, plan.jig.fit),
    head,
    plate,
    label,
  };
  const footPart = printedPart(
    {
      name: `foot${name}-${number}`,
      kind: 'collector-holder',
      title: `Foot of strut ${number}, at ${line.foot.bolted}`,
      solid: footSolid(foot),
      at: head,
      up: WORLD,
      chamfer: plan.jig.chamfer,
    },
    bed,
  );
  const bars = points.slice(1).flatMap((to, i) => {
    const from = points[i]!;
    const d = unit(sub(to, from));
    const letter = points.length === 2 ? '' : 'ab'[i]!;
    return keyedBars({
      from: along(from, d, i === 0 ? bossLength(block) : elbowBoss(block)),
      to: along(to, d, -(i === points.length - 2 ? footBoss(foot) : elbowBoss(block))),
      radius: block.strut,
      key: block.strutKey,
      ...(i === points.length - 2 ? { lastKey: foot.key } : {}),
      keyLength: block.keyLength,
      bed,
      chamfer: plan.jig.chamfer,
      name: `strut${name}-${number}${letter}`,
      label: label + letter,
      title: `Strut ${number}${letter} of the collector's holder`,
    });
  });
  return [footPart, ...bars, ...(points.length > 2 ? [elbowPart(plan, block, points, `elbow${name}-${number}`)] : [])];
}

/** The direction of a bar from its point to the next. */
export const directionAt = (points: readonly Vec3[], i: number): Vec3 => unit(sub(points[i + 1]!, points[i]!));

/** An elbow's bosses are as long as the holder's. */
const elbowBoss = bossLength;

/** The knee of a strut: a boss with a socket towards either bar. It lies in the plane of the two. */
function elbowPart(plan: Plan, block: HolderBlock, points: readonly Vec3[], name: string): SolidPart {
  const at = { ...WORLD, origin: points[1]! };
  const [a, b] = [scale(directionAt(points, 0), -1), directionAt(points, 1)];
  const boss = (d: Vec3, to: number): Solid =>
    placed(bar(block.strut, 0, to), frameFacing(WORLD.origin, d, barNormal(d)));
  const knee = hull(boss(a, block.strut), boss(b, block.strut));
  const body = union(knee, boss(a, elbowBoss(block)), boss(b, elbowBoss(block)));
  const sockets = [a, b].map((d) => {
    const mouth = frameFacing(along(WORLD.origin, d, elbowBoss(block)), scale(d, -1), barNormal(d));
    return socket(block.strutKey, block.keyLength, mouth);
  });
  const across = cross(a, b);
  const up = length(across) > 1e-6 ? unit(across) : perpendicularTo(a);
  const solid = trimmed(difference(body, ...sockets), {
    point: scale(up, -block.strut * Math.sin(BAR_LEAN)),
    normal: up,
  });
  return printedPart(
    {
      name,
      kind: 'collector-holder',
      title: 'Elbow of a strut',
      solid,
      at,
      up: frameFacing(WORLD.origin, up, a),
      chamfer: plan.jig.chamfer,
    },
    plan.jig.bed,
  );
}

import { type Frame, frameFacing, WORLD } from '../../geometry/frame.js';
import { difference, hull, placed, type Solid, trimmed, union } from '../../geometry/solid.js';
import { bar } from '../../geometry/solid-shapes.js';
import { textSolid, textStrokes } from '../../geometry/text-solid.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { along, scale, type Vec3 } from '../../geometry/vec3.js';
import { tiltedTube } from '../collector-solid.js';
import { armEnd, bossLength, type HolderBlock, STUB } from './holder-block.js';
import { socket } from './key.js';
import { ENGRAVED } from './proof-solid.js';

/** An arm of the holder and the strut that leaves it, collector frame. */
export interface HolderArm {
  readonly arm: Vec2;
  readonly out: number;
  /** Unit direction of the strut away from the holder. */
  readonly direction: Vec3;
  /** Where the flat of its key faces. */
  readonly normal: Vec3;
}

/** The tube an inlet takes: its cylinder and where its key's flat faces, collector frame. */
export interface HeldTube {
  readonly cylinder: number;
  readonly normal: Vec3;
}

/**
 * The holder in the collector's frame: a stub of the tubes' outside at every inlet with the socket of its last dummy tube, a
 * block that joins them, an arm to every strut with the strut's socket. Its base is flat; the cylinders' numbers stand on it.
 */
export function holderSolid(block: HolderBlock, tubes: readonly HeldTube[], arms: readonly HolderArm[]): Solid {
  const { inlets, radius, depth } = block;
  const stubs = inlets.map((i) => tiltedTube(i, radius, 0, depth));
  const core = hull(...inlets.map((i) => tiltedTube(i, radius, STUB, depth)));
  const whole = union(...stubs, core, ...arms.flatMap((a) => [armSolid(block, a), bossSolid(block, a)]));
  const flat = trimmed(whole, { point: [0, 0, depth], normal: [0, 0, -1] });
  return difference(
    flat,
    ...inlets.map((inlet, i) =>
      socket(block.tubeKey, block.keyLength, frameFacing(inlet.origin, inlet.z, tubes[i]!.normal)),
    ),
    ...arms.map((a) => socket(block.strutKey, block.keyLength, mouthOf(block, a))),
    ...inlets.map((inlet, i) => number(block, inlet, tubes[i]!.cylinder)),
  );
}

/** Where a strut meets the holder: z into the holder, collector frame. */
export function mouthOf(block: HolderBlock, { arm, out, direction, normal }: HolderArm): Frame {
  return frameFacing(along(armEnd(block, arm, out), direction, bossLength(block)), scale(direction, -1), normal);
}

function armSolid(block: HolderBlock, { arm, out }: HolderArm): Solid {
  const post = (at: number): Solid =>
    placed(bar(block.strut + 1, block.depth - 2 * block.strut, block.depth), {
      ...WORLD,
      origin: [at * arm[0], at * arm[1], 0],
    });
  return hull(post(0), post(out));
}

function bossSolid(block: HolderBlock, { arm, out, direction, normal }: HolderArm): Solid {
  return placed(bar(block.strut, 0, bossLength(block)), frameFacing(armEnd(block, arm, out), direction, normal));
}

/** A cylinder's number in the base under its inlet. */
function number({ depth }: HolderBlock, inlet: Frame, cylinder: number): Solid {
  const [x, y] = along(inlet.origin, inlet.z, depth);
  return placed(textSolid(textStrokes(String(cylinder), 10), -ENGRAVED, 1), { ...WORLD, origin: [x, y, depth] });
}

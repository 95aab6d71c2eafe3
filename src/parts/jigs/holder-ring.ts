import { type Frame, frameFacing, WORLD } from '../../geometry/frame.js';
import { difference, hull, placed, type Solid, trimmed, union } from '../../geometry/solid/solid.js';
import { bar } from '../../geometry/solid/solid-shapes.js';
import { textSolid, textStrokes } from '../../geometry/solid/text-solid.js';
import type { Vec2 } from '../../geometry/vec2.js';
import { along, scale, type Vec3 } from '../../geometry/vec3.js';
import { tiltedTube } from '../collector/solid.js';
import { armEnd, bossLength, type HolderBlock, STUB } from './holder-block.js';
import { screwHole } from './joint-screw.js';
import { socket } from './key.js';
import { ENGRAVED } from './printed-writing.js';

/** An arm of the holder and the strut that leaves it, collector frame. */
export interface HolderArm {
  readonly arm: Vec2;
  readonly out: number;
  /** Unit direction of the strut away from the holder. */
  readonly direction: Vec3;
  /** Where the flat of its key faces. */
  readonly normal: Vec3;
}

/** The tube an inlet takes: what its place is marked with and where its key's flat faces, collector frame. */
export interface HeldTube {
  readonly mark: string;
  readonly normal: Vec3;
  /** The way out to the head of the screw across its key; null without. */
  readonly screw: Vec3 | null;
}

/** What a holder carries besides its block. */
export interface HolderFittings {
  readonly tubes: readonly HeldTube[];
  readonly arms: readonly HolderArm[];
  /** Where the flat of the stem's key faces, collector frame; null without a stem. */
  readonly stemNormal: Vec3 | null;
}

/**
 * The holder in the collector's frame: a stub of the tubes' outside at every inlet with the socket of its last dummy tube, a
 * block that joins them, an arm to every strut with the strut's socket. Its base is flat, with the stem's socket where there
 * is a stem; the tubes' marks stand on it.
 */
export function holderSolid(block: HolderBlock, { tubes, arms, stemNormal }: HolderFittings): Solid {
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
    ...inlets.flatMap((inlet, i) => [...tubeScrew(block, inlet, tubes[i]!), ...cordHole(block, inlet)]),
    ...arms.map((a) => socket(block.strutKey, block.keyLength, mouthOf(block, a))),
    ...stemSocket(block, stemNormal),
    ...inlets.flatMap((inlet, i) => markOn(block, inlet, tubes[i]!.mark)),
  );
}

/** The screw of a tube's last key comes in from the holder's outside, which is never nearer than the tube's. */
function tubeScrew({ keyLength, radius, strut }: HolderBlock, inlet: Frame, { normal, screw }: HeldTube): Solid[] {
  if (screw === null) return [];
  return [screwHole(frameFacing(inlet.origin, inlet.z, normal), keyLength, screw, radius + 2 * strut)];
}

/** The cord leaves at the base, where it is knotted. */
function cordHole({ cord, depth }: HolderBlock, inlet: Frame): Solid[] {
  return cord === null ? [] : [placed(bar(cord, -1, 2 * depth), inlet)];
}

/** Where a strut meets the holder: z into the holder, collector frame. */
function mouthOf(block: HolderBlock, { arm, out, direction, normal }: HolderArm): Frame {
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

function stemSocket({ stem, depth }: HolderBlock, normal: Vec3 | null): Solid[] {
  if (!stem || !normal || stem.keyLength === 0) return [];
  return [socket(stem.key, stem.keyLength, frameFacing([0, 0, depth], [0, 0, -1], normal))];
}

/** Height of a mark and the least that a printer can draw, mm. */
const MARK = 10;
const LEAST_MARK = 4;

/** A tube's mark in the base under its inlet, beside the stem; none where there is no room to read it. */
function markOn(block: HolderBlock, inlet: Frame, mark: string): Solid[] {
  const { depth, stem, radius } = block;
  const [x, y] = along(inlet.origin, inlet.z, depth / inlet.z[2]);
  const from = Math.hypot(x, y);
  const least = stem ? stem.radius + 1 : 0;
  const most = from + radius - 1;
  for (let height = MARK; height >= LEAST_MARK; height -= 1) {
    const strokes = textStrokes(mark, height);
    const half = Math.hypot(strokes.width, strokes.height) / 2;
    const out = Math.max(from, least + half);
    if (half > radius - 1 || out + half > most) continue;
    const k = from > 1e-9 ? out / from : 1;
    const at: Vec3 = [x * k, y * k, depth];
    return [placed(textSolid(strokes, -ENGRAVED, 1), { ...WORLD, origin: at })];
  }
  return [];
}

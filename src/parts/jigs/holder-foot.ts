import { directionInto, type Frame, frameFacing, pointInto, WORLD } from '../../geometry/frame.js';
import { difference, hull, placed, type Solid, trimmed, union } from '../../geometry/solid/solid.js';
import { bar, circlePoints, prism } from '../../geometry/solid/solid-shapes.js';
import { textSolid, textStrokes } from '../../geometry/solid/text-solid.js';
import { add2, type Vec2 } from '../../geometry/vec2.js';
import { along, scale, type Vec3 } from '../../geometry/vec3.js';
import { type FootPlace, PAD } from './foot-places.js';
import { type HolderBlock, neckLength } from './holder-block.js';
import { type Key, socket } from './key.js';
import { ENGRAVED } from './printed-writing.js';

/** A foot with the strut that stands on it. */
export interface Foot {
  readonly place: FootPlace;
  /** Unit direction of the strut away from the foot, world. */
  readonly direction: Vec3;
  /** Where the flat of its key faces, world. */
  readonly normal: Vec3;
  readonly block: HolderBlock;
  /** Of the strut's end in it. */
  readonly key: Key;
  /** The head's frame, and the height of the printed flange's outer face in it, mm. */
  readonly head: Frame;
  readonly plate: number;
  readonly label: string;
}

/** How far from its root the foot's boss ends and the strut begins, mm. */
export const footBoss = ({ place, direction, block, head }: Foot): number =>
  neckLength(block, place.thick, directionInto(head, direction)[2], PAD);

/** The foot in the frame of its head: a pad with the bolt's hole, a boss along the strut with its socket, its name below. */
export function footSolid(foot: Foot): Solid {
  const { place, block, plate, head, label } = foot;
  const direction = directionInto(head, foot.direction);
  const normal = directionInto(head, foot.normal);
  const root = pointInto(head, place.root);
  const length = footBoss(foot);
  const top = plate + PAD;
  const pad = hull(standing(place.at, place.padRadius, plate, top), standing(place.seat, place.thick + 1, plate, top));
  const axis = frameFacing(root, direction, normal);
  const boss = placed(bar(place.thick, 0, length), axis);
  const knuckle = hull(standing(place.seat, place.thick + 1, plate, top), placed(bar(place.thick, 0, 1), axis));
  const body = trimmed(union(pad, knuckle, boss), { point: [0, 0, plate], normal: [0, 0, 1] });
  const mouth = frameFacing(along(root, direction, length), scale(direction, -1), normal);
  const hole = prism(
    circlePoints(place.holeDiameter / 2, undefined, 'chords-outside').map((p) => add2(p, place.at)),
    plate - 1,
    top + 1,
  );
  const name = placed(textSolid(textStrokes(label, 5), -ENGRAVED, 1), {
    origin: [place.seat[0], place.seat[1], plate],
    x: [-1, 0, 0],
    y: [0, 1, 0],
    z: [0, 0, -1],
  });
  return difference(body, hole, socket(foot.key, block.keyLength, mouth), name);
}

function standing([x, y]: Vec2, radius: number, from: number, to: number): Solid {
  return placed(bar(radius, from, to), { ...WORLD, origin: [x, y, 0] });
}

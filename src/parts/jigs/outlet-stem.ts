import { pointFrom } from '../../geometry/frame.js';
import type { Vec3 } from '../../geometry/vec3.js';
import type { CollectorPlan } from '../../params/plan.js';
import type { SolidPart } from '../part.js';
import { FOOT } from './dummy-tube.js';
import type { HolderBlock, HolderStem } from './holder-block.js';
import type { JointKey } from './joint-keys.js';
import { keyedBars } from './keyed-bar.js';

/** What a stem carries on: its collector, the name of its holder's parts, and the secondary that stands on it. */
export interface StemPlace {
  readonly collector: CollectorPlan;
  readonly file: string;
  /** Key of the secondary's first dummy tube. */
  readonly joint: JointKey;
  /** Where the keys' flats face, world. */
  readonly normal: Vec3;
  readonly bed: Vec3;
}

/** The stem of a feeding collector's holder: round like its outlet, from the holder's base to where the secondary begins. */
export function outletStem(block: HolderBlock, stem: HolderStem, place: StemPlace): SolidPart[] {
  const { collector, file, joint, normal, bed } = place;
  return keyedBars({
    from: pointFrom(collector.frame, [0, 0, block.depth]),
    to: pointFrom(collector.frame, [0, 0, stem.end]),
    radius: stem.radius,
    key: stem.key,
    keyLength: block.keyLength,
    startKey: stem.keyLength,
    endKey: joint.length,
    normal,
    bed,
    // as round as the outlet it stands for
    flat: FOOT,
    chamfer: 0,
    name: `stem${file}`,
    label: `${collector.name} out`,
    title: `Stem of collector ${collector.name}: stands for its outlet, carries the secondary`,
  });
}

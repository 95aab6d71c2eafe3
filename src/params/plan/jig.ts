import type { Frame } from '../../geometry/frame.js';
import type { Vec3 } from '../../geometry/vec3.js';

/** The printed parts that mock the header up, and the printer they are for. */
export interface JigPlan {
  /** Unit the titles of its parts say lengths in: the plan's. */
  readonly units: 'mm' | 'in';
  /** Usable size of the printer, mm: x, y, height. */
  readonly bed: Vec3;
  /** Gap per side where printed parts slide together, mm. */
  readonly fit: number;
  /** Thickness of printed plates, mm. */
  readonly plate: number;
  /** Length of the key at a dummy tube's joint, mm. */
  readonly keyLength: number;
  /** Diameter of the struts of the collector holders, mm; null leaves it to the program. */
  readonly strut: number | null;
  /** Least gap between parts on a build plate, mm. */
  readonly gap: number;
  /** Against the first layer's bulge, mm; 0 without. */
  readonly chamfer: number;
  /** Layers, walls and what prints without support. */
  readonly print: PrintPlan;
  /** Jigs for tacking on the bench; null when none are wanted. */
  readonly bench: BenchPlan | null;
  /** How dummy tubes hold together: pressed, slid and glued, or slid and screwed across the key. */
  readonly joint: 'press' | 'slide' | 'screw';
  /** Gap per side of a pressed joint, mm. */
  readonly pressFit: number;
  /** Wall of hollow dummy tubes, mm; null prints them solid. */
  readonly tubeWall: number | null;
  /** Diameter of what is threaded through the dummies' centreline, mm; null without. */
  readonly cord: number | null;
  /** Unit of the scale along the dummy tubes; null without. */
  readonly scale: 'mm' | 'in' | null;
  /** Cut lines, clocking lines and joints' names on the dummy tubes. */
  readonly marks: boolean;
  /** Feet that carry the first piece of every primary at its angle; null without. */
  readonly foot: JigFoot | null;
  /** Where the collectors' holders stand besides the flange; null: on the flange's bolts. */
  readonly holder: JigHolder | null;
  /** A comb where primaries run close. */
  readonly comb: boolean;
}

/** How the parts are printed. */
export interface PrintPlan {
  /** Lines in a wall. */
  readonly walls: number;
  /** mm. */
  readonly lineWidth: number;
  /** Share of the inside that is plastic. */
  readonly infill: number;
  /** Height of a layer, mm. */
  readonly layer: number;
  /** kg/m3. */
  readonly density: number;
  /** Solid layers at the bottom and at the top. */
  readonly solidLayers: number;
  /** Walls and solid layers, mm3/s on average. */
  readonly flow: number;
  /** Filling, mm3/s on average. */
  readonly infillFlow: number;
  /** Time every layer costs beside its plastic, s. */
  readonly layerTime: number;
  /** Lean from upright that prints without support, rad. */
  readonly overhang: number;
  /** Area of a part that may lean out further unremarked, mm2. */
  readonly mostOverhang: number;
  /** Area a part stands on the bed with to hold, mm2. */
  readonly leastFoot: number;
}

/** Printed jigs that hold and mark the steel pieces on the bench. */
export interface BenchPlan {
  /** True for saddles and their base plate. */
  readonly saddles: boolean;
  /** True for scribing sleeves. */
  readonly sleeves: boolean;
  /** True for clocking rings. */
  readonly clockingRings: boolean;
  /** The plate the saddles stand on: distance and diameter of its holes, thickness, mm. */
  readonly base: {
    /** Distance of neighbouring holes, mm. */
    readonly pitch: number;
    /** Diameter of the holes, mm. */
    readonly hole: number;
    /** Thickness of the plate, mm. */
    readonly thickness: number;
  };
  /** No saddle stands nearer than this to a joint along the tube, mm. */
  readonly torchRoom: number;
}

/** Feet under the first pieces. */
export interface JigFoot {
  /** Bolts of the head, from 1, they may stand on; null: any. */
  readonly bolts: readonly number[] | null;
}

/** Bolts on the block that the holder of one collector stands on instead of the flange's. */
export interface JigHolder {
  /** Index into `Plan.collectors`. */
  readonly collector: number;
  /** Where its feet are bolted. */
  readonly bolts: readonly BlockBolt[];
}

/** A threaded hole beside the head that may carry a holder's foot. */
export interface BlockBolt {
  /** Where its axis meets the face, world, mm; z of the frame leaves the face. */
  readonly frame: Frame;
  /** Clearance hole, mm. */
  readonly holeDiameter: number;
  /** Nominal thread diameter, mm. */
  readonly threadDiameter: number;
}

import type { Vec2 } from '../../geometry/vec2.js';

/** The plate between the head and the tubes: how it is made, cut and drilled. */
export interface FlangePlan {
  /** mm. */
  readonly thickness: number;
  /** As the plan names it. */
  readonly material: string;
  /** Least metal from an opening to the outside, mm. */
  readonly portEdge: number;
  /** Least metal from a bolt hole to the outside, mm. */
  readonly boltEdge: number;
  /** Least metal between two openings or holes, mm. */
  readonly web: number;
  /** Fillet radius at inner corners of the outline, mm. */
  readonly fillet: number;
  /** What the holes for the gas are matched to. */
  readonly opening: OpeningPlan;
  /** One plate, or how it is relieved between ports. */
  readonly style: FlangeStyle;
  /** Dowel holes. */
  readonly dowels: readonly DowelPlan[];
  /** What is cut out of the edge. */
  readonly notches: readonly NotchPlan[];
  /** What head and flange do when hot; null leaves the bolt holes as they are. */
  readonly growth: GrowthPlan | null;
  /** Leg of the fillet weld between tube and flange, mm. */
  readonly weldLeg: number;
  /** Least gap between neighbouring tubes at the flange that a torch reaches into, mm. */
  readonly torchGap: number;
  /** Holes below this many plate thicknesses are centre-marked and drilled. */
  readonly leastCutHole: number;
  /** Tolerance class of the cut, ISO 9013. */
  readonly cutClass: CutClass;
  /** Width of the cut, mm, and whether the outlines are moved by half of it or left to the CAM. */
  readonly kerf: {
    /** Width of the cut, mm. */
    readonly width: number;
    /** True when the outlines are moved by half the width. */
    readonly compensate: boolean;
  };
}

/** What the openings of the flange are cut to. */
export type OpeningPlan =
  /** The port's outline, grown all round. */
  | {
      readonly match: 'port';
      /** How much larger all round, mm. */
      readonly enlarge: number;
    }
  /** A socket: the tube's outside, with a clearance per side; the tube stands in the plate. */
  | {
      readonly match: 'tube_od';
      /** Gap per side, mm. */
      readonly fit: number;
    }
  /** The tube's bore, for a butt weld on the outer face. */
  | { readonly match: 'tube_bore' }
  /** The port at the head, the tube at the outer face, blended by hand; the cut is what both have in common. */
  | {
      readonly match: 'transition';
      /** How much larger than the port at the head face, mm. */
      readonly enlarge: number;
      /** What it is at the outer face. */
      readonly outer: 'tube_bore' | 'tube_od';
    };

/** How the plate hangs together, lengths in mm. */
export type FlangeStyle =
  | { readonly kind: 'one_piece' }
  /** Relieved between ports from both edges, so that a neck of `width` stays for `length` along the line of ports. */
  | {
      readonly kind: 'necked';
      /** Least width of a neck, mm. */
      readonly width: number;
      /** Least length of a neck, mm. */
      readonly length: number;
    }
  /** A closed slot across the plate between ports, with a tie left to either edge. */
  | {
      readonly kind: 'slotted';
      /** Width of a slot, mm. */
      readonly width: number;
      /** Metal left at the end of a slot, mm. */
      readonly tie: number;
    }
  /** A pad for each port, joined by bars along the bolts between them. */
  | {
      readonly kind: 'bridged';
      /** Width of a bridge, mm. */
      readonly width: number;
    }
  /** One flange for each group of cylinders; null gives every cylinder its own. `gap` is the least between neighbours. */
  | {
      readonly kind: 'separate';
      /** Cylinders of each plate; null for each its own. */
      readonly groups: readonly (readonly number[])[] | null;
      /** Least gap between plates, mm. */
      readonly gap: number;
    };

/** A hole for a dowel: drilled and reamed. */
export interface DowelPlan {
  /** On the head face, mm. */
  readonly at: Vec2;
  /** mm. */
  readonly diameter: number;
  /** The head it belongs to; null for every head. */
  readonly head: string | null;
}

/** Room cut into the outer edge. */
export type NotchPlan = {
  /** On the head face, mm: the middle of a round notch, the tip of a vee. */
  readonly at: Vec2;
  /** Name of the head it belongs to; null for every head. */
  readonly head: string | null;
} & (
  | {
      readonly kind: 'round';
      /** Radius, mm. */
      readonly radius: number;
    }
  /** Opens towards a direction on the face, rad from x, by an angle, rad; its tip is rounded. */
  | {
      readonly kind: 'vee';
      /** Way it opens, counter-clockwise from x, rad. */
      readonly towards: number;
      /** Opening angle, rad. */
      readonly angle: number;
      /** Radius at its tip, mm. */
      readonly tip: number;
    }
);

/** Kinds of flange steel whose expansion is known. */
export type FlangeMetal = 'carbon_steel' | 'austenitic' | 'ferritic';

/** Kinds of cylinder head. */
export type HeadMetal = 'aluminium' | 'cast_iron';

/** What the flange and the head do from cold to hot. Temperatures in K. */
export interface GrowthPlan {
  /** What the head is of. */
  readonly headMetal: HeadMetal;
  /** What the flange is of. */
  readonly flangeMetal: FlangeMetal;
  /** When the holes were measured, K. */
  readonly cold: number;
  /** Of the running head, K. */
  readonly headHot: number;
  /** Of the running flange, K. */
  readonly flangeHot: number;
  /** The bolt the flange grows from: by its number in the head's list, from 1, or the middle one. */
  readonly fixed: number | 'middle';
  /** Slots along the line of growth, or larger round holes. */
  readonly holes: 'slot' | 'round';
}

/** Tolerance class of thermal cuts, ISO 9013. */
export type CutClass = 1 | 2;

/** A plate of a parametric pattern, or a joint described by numbers alone. */
export interface PlatePlan {
  /** As the plan calls it. */
  readonly name: string;
  /** Names of the collectors whose outlets end in it, in the order of its openings. */
  readonly feeds: readonly string[];
  /** Pieces to make. */
  readonly count: number;
  /** mm. */
  readonly thickness: number;
  /** As the plan names it. */
  readonly material: string;
  /** Least metal from a bolt hole to the outside, mm. */
  readonly edge: number;
  /** Least metal from an opening to the outside, mm. */
  readonly throatEdge: number;
  /** Least metal between two openings or holes, mm: the flange's. */
  readonly web: number;
  /** Radius of the waist between bolts, mm; null for straight sides from boss to boss. */
  readonly fillet: number | null;
  /** True when a gasket of it is wanted, where the plan wants gaskets of plates. */
  readonly gasket: boolean;
  /** Its bolts and openings. */
  readonly pattern: PlatePattern;
}

/** Bolts of a plate. */
export interface PlateBolts {
  /** As the plan gives it. */
  readonly thread: string;
  /** Clearance hole, mm: ISO 273 by thread and fit unless the plan gives its own. */
  readonly holeDiameter: number;
}

/** Bolts and opening of a plate by its pattern, or the sizes of a joint without bolts. */
export type PlatePattern =
  | {
      readonly kind: 'rectangle_four_bolt';
      /** Thread and holes. */
      readonly bolts: PlateBolts;
      /** Distance of the bolts across and up, mm. */
      readonly boltX: number;
      /** Distance up, mm. */
      readonly boltY: number;
      /** Its opening. */
      readonly throat: PlateThroat;
    }
  | {
      /** Bolts on a circle: three with straight or waisted sides, or a round plate. */
      readonly kind: 'triangle_three_bolt' | 'round';
      /** Thread and holes. */
      readonly bolts: PlateBolts;
      /** Number of bolts. */
      readonly count: number;
      /** mm. */
      readonly boltCircle: number;
      /** Turns the bolts counter-clockwise from one straight up, rad. */
      readonly clocking: number;
      /** Its opening. */
      readonly throat: PlateThroat;
      /** Outside diameter of a round plate, mm; null when the bolts decide. */
      readonly od: number | null;
    }
  | {
      readonly kind: 'oval_two_bolt';
      /** Thread and holes. */
      readonly bolts: PlateBolts;
      /** mm. */
      readonly boltSpacing: number;
      /** Turns the line of bolts counter-clockwise from level, rad. */
      readonly clocking: number;
      /** Its opening. */
      readonly throat: PlateThroat;
    }
  /** Blank for the ring that is welded to a tube and held by a V-band clamp. */
  | {
      readonly kind: 'vband_bore';
      /** Bore, mm. */
      readonly bore: number;
      /** Outside diameter, mm. */
      readonly od: number;
    }
  /** A sleeve over a tube's end. `fit` is the gap per side; all mm. */
  | {
      readonly kind: 'slip_joint';
      /** Outside diameter of the tube, mm. */
      readonly tubeOd: number;
      /** Wall of the sleeve, mm. */
      readonly wall: number;
      /** How far it reaches over the tube, mm. */
      readonly overlap: number;
      /** Gap per side, mm. */
      readonly fit: number;
    };

/** The opening of a plate, mm. */
export type PlateThroat =
  | {
      readonly kind: 'round';
      /** Diameter. */
      readonly diameter: number;
    }
  | {
      readonly kind: 'open';
      /** Across. */
      readonly width: number;
      /** Up. */
      readonly height: number;
      /** Radius of its corners. */
      readonly cornerRadius: number;
    }
  /** Two openings side by side with a web between them; width and height over both. */
  | {
      readonly kind: 'divided';
      /** Over both. */
      readonly width: number;
      /** Up. */
      readonly height: number;
      /** Width of the web. */
      readonly web: number;
      /** Radius of their corners. */
      readonly cornerRadius: number;
    };

/** Which gaskets are wanted, and of what. */
export interface GasketsPlan {
  /** True for a gasket of every head flange, of every plate. */
  readonly flanges: boolean;
  /** True for a gasket of every plate that wants one. */
  readonly plates: boolean;
  /** Openings of the gasket are larger by this all round, mm. */
  readonly grow: number;
  /** mm. */
  readonly thickness: number;
  /** As the plan names it. */
  readonly material: string;
}

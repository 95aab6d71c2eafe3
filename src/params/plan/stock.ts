/** Bent stock the shop can get. */
export interface StockBend {
  /** Centreline radius, mm. */
  readonly clr: number;
  /** Largest angle that can be cut from it, rad. */
  readonly maxAngle: number;
  /** Straight leg on one end of the bend, mm: a J-bend's long one. */
  readonly leg: number;
  /** Straight leg on the other end, mm: as long as `leg` on a U-bend. */
  readonly shortLeg: number;
  /** 'NPS 2 elbow, 90 deg, long radius' where the table of elbows gave the sizes. */
  readonly elbow?: string | undefined;
  /** As the plan calls it. */
  readonly name?: string | undefined;
  /** Of one, in the plan's currency. */
  readonly price?: number | undefined;
  /** How many there are; as many as wanted when undefined. */
  readonly available?: number | undefined;
}

/** Straight stock the shop can get. */
export interface StockStick {
  /** mm. */
  readonly length: number;
  /** As the plan calls it. */
  readonly name?: string | undefined;
  /** Of one, in the plan's currency. */
  readonly price?: number | undefined;
  /** How many there are; as many as wanted when undefined. */
  readonly available?: number | undefined;
}

/** How stock is cut and what of it is made least. */
export interface StockPlan {
  /** Width of the saw cut, mm. */
  readonly kerf: number;
  /** Shortest end the saw's vice holds, mm: lost on every stick. */
  readonly grip: number;
  /** Offcuts at least this long are kept, mm. */
  readonly leastOffcut: number;
  /** What the bill makes least. */
  readonly minimise: 'pieces' | 'price';
  /** As the plan writes it; null without prices. */
  readonly currency: string | null;
  /** Of the tube, kg/m3; null where the material's name says. */
  readonly density: number | null;
}

/** A kind of stock that is bought. mm and rad. */
export interface StockItem {
  /** 'U-bend 42.4 x 1.6, CLR 63.5, 180 deg, legs 60 mm'. */
  readonly name: string;
  /** What it is. */
  readonly kind: 'stick' | 'bend' | 'elbow';
  /** Outside diameter, mm. */
  readonly od: number;
  /** Wall, mm. */
  readonly wall: number;
  /** As the plan names it. */
  readonly material: string;
  /** Developed length of the whole item. */
  readonly length: number;
  /** Null for a stick. */
  readonly bend: {
    /** Centreline radius, mm. */
    readonly clr: number;
    /** Angle it has, rad. */
    readonly angle: number;
    /** Straight on one end, mm. */
    readonly leg: number;
    /** Straight on the other end, mm. */
    readonly shortLeg: number;
  } | null;
  /** In the plan's currency; null when not given. */
  readonly price: number | null;
  /** How many there are; null when as many as wanted. */
  readonly available: number | null;
}

/** What is cut from one item, in order along its centreline from its first end (of a J-bend the long leg's). */
export interface StockUse {
  /** Number of the item on the saw's list, from 1. */
  readonly number: number;
  /** What is cut. */
  readonly item: StockItem;
  /** `reversed` when the piece's start points to the item's last end. */
  readonly cuts: readonly {
    /** Name of the piece. */
    readonly piece: string;
    /** Where it begins along the stock, mm. */
    readonly from: number;
    /** Where it ends, mm. */
    readonly to: number;
    /** True when it lies with its far end first. */
    readonly reversed: boolean;
  }[];
  /** What is left over, longest stretch, and all of it together with the kerfs. */
  readonly offcut: number;
  /** All that is left over, with the kerfs, mm. */
  readonly waste: number;
  /** Every stretch left over, in order; `kept` when it is as long as offcuts that are kept. */
  readonly offcuts: readonly {
    /** Where it begins, mm. */
    readonly from: number;
    /** Where it ends, mm. */
    readonly to: number;
    /** True when it is long enough to keep. */
    readonly kept: boolean;
  }[];
}

/** What to buy and how to cut it. */
export interface StockBill {
  /** Every piece of stock begun, with its cuts. */
  readonly uses: readonly StockUse[];
  /** What to buy. */
  readonly shopping: readonly {
    /** What to buy. */
    readonly item: StockItem;
    /** How many. */
    readonly count: number;
    /** Of all of them; null when not given. */
    readonly price: number | null;
  }[];
  /** What was made least. */
  readonly minimised: 'count' | 'price';
  /** Its value, the proven lower bound, and whether they meet. */
  readonly value: number;
  /** Nothing less makes the pieces: proven. */
  readonly bound: number;
  /** True when the value meets the bound. */
  readonly optimal: boolean;
  /** What first-fit-decreasing comes to; null where it makes fewer of the pieces. */
  readonly firstFit: number | null;
  /** Sum of prices; null when one is not given. */
  readonly price: number | null;
  /** As the plan writes it; null without prices. */
  readonly currency: string | null;
  /** Pieces that no stock of the plan makes, and why. */
  readonly unmade: readonly {
    /** Name of the piece. */
    readonly piece: string;
    /** In words. */
    readonly why: string;
  }[];
  /** kg; null where the density is not known. */
  readonly tubeMass: number | null;
  /** All welds of the tubes, mm. */
  readonly weldLength: number;
  /** Filler wire, kg, and gas to fill all tubes once, litres: estimates. */
  readonly fillerMass: number | null;
  /** The bores of all tubes, litres. */
  readonly purgeVolume: number;
}

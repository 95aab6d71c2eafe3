/** A kind of stock that is bought. mm and rad. */
export interface StockItem {
  /** 'U-bend 42.4 x 1.6, CLR 63.5, 180 deg, legs 60 mm'. */
  readonly name: string;
  readonly kind: 'stick' | 'bend' | 'elbow';
  readonly od: number;
  readonly wall: number;
  readonly material: string;
  /** Developed length of the whole item. */
  readonly length: number;
  /** Null for a stick. */
  readonly bend: {
    readonly clr: number;
    readonly angle: number;
    readonly leg: number;
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
  readonly item: StockItem;
  /** `reversed` when the piece's start points to the item's last end. */
  readonly cuts: readonly {
    readonly piece: string;
    readonly from: number;
    readonly to: number;
    readonly reversed: boolean;
  }[];
  /** What is left over, longest stretch, and all of it together with the kerfs. */
  readonly offcut: number;
  readonly waste: number;
  /** Every stretch left over, in order; `kept` when it is as long as offcuts that are kept. */
  readonly offcuts: readonly { readonly from: number; readonly to: number; readonly kept: boolean }[];
}

/** What to buy and how to cut it. */
export interface StockBill {
  readonly uses: readonly StockUse[];
  readonly shopping: readonly { readonly item: StockItem; readonly count: number; readonly price: number | null }[];
  /** What was made least. */
  readonly minimised: 'count' | 'price';
  /** Its value, the proven lower bound, and whether they meet. */
  readonly value: number;
  readonly bound: number;
  readonly optimal: boolean;
  /** What first-fit-decreasing comes to; null where it makes fewer of the pieces. */
  readonly firstFit: number | null;
  /** Sum of prices; null when one is not given. */
  readonly price: number | null;
  readonly currency: string | null;
  /** Pieces that no stock of the plan makes, and why. */
  readonly unmade: readonly { readonly piece: string; readonly why: string }[];
  /** kg; null where the density is not known. */
  readonly tubeMass: number | null;
  /** All welds of the tubes, mm. */
  readonly weldLength: number;
  /** Filler wire, kg, and gas to fill all tubes once, litres: estimates. */
  readonly fillerMass: number | null;
  readonly purgeVolume: number;
}

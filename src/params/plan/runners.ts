import type { Vec3 } from '../../geometry/vec3.js';

/** What all primaries must come to, and how their routes are searched for. */
export interface RunnersPlan {
  /** Target length of every primary, mm: where a band is allowed, its middle; NaN, which no stage takes for a length, until tuning has fixed it where `tuned`. */
  readonly length: number;
  /** True where the length comes from a published rule, `Plan.tuning.rule`. */
  readonly tuned: boolean;
  /** Shortest and longest common length the solver may choose, mm; null when the length is fixed. */
  readonly band: {
    /** Shortest, mm. */
    readonly from: number;
    /** Longest, mm. */
    readonly to: number;
  } | null;
  /** Largest allowed spread, mm. */
  readonly tolerance: number;
  /** Least gap between the skins of two primaries, mm. */
  readonly clearance: number;
  /** Primaries routed by hand; the others are routed automatically. */
  readonly given: readonly GivenRoute[];
  /** Seed of the route search: the same plan gives the same routes. */
  readonly seed: number;
  /** What makes one route better than another. */
  readonly weights: RouteWeights;
  /** Longest the search may work, s of the processor. */
  readonly budget: number;
}

/** What makes one route better than another, each as the mm of clearance-like cost it is worth. */
export interface RouteWeights {
  /** Each bend: a cut and a weld more. */
  readonly bend: number;
  /** Each radian of bending. */
  readonly turning: number;
  /** Each radian at a CLR of one OD; less for larger radii. */
  readonly tightness: number;
  /** A gap at its limit. */
  readonly closeness: number;
  /** Each piece of stock begun. */
  readonly scrap: number;
}

/** A route given by hand as intersection points; LRA rows are turned into points when the plan is read. */
export interface GivenRoute {
  /** Cylinder number, from 1. */
  readonly cylinder: number;
  /** Inlet number from 1, or null when the order decides. */
  readonly inlet: number | null;
  /** Intersection points of the straights, ends included, world, mm. */
  readonly points: readonly Vec3[];
  /** Centreline radius of each bend, mm. */
  readonly clr: readonly number[];
}

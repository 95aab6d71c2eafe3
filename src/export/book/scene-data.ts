/**
 * What a page draws of a header, as plain JSON: it lies in a file that opens from disk, or goes over a socket while a plan is shaped.
 * Millimetres and radians in the world's frame. Tubes are exact (straights and arcs): the page makes their skins.
 */
export interface SceneData {
  readonly schema: 'evenrun-scene-1';
  readonly name: string;
  /** Unit the plan was written in: what the page shows beside mm. */
  readonly units: 'mm' | 'in';
  /** Primaries, then secondaries. */
  readonly tubes: readonly SceneTube[];
  readonly solids: readonly SceneSolid[];
  /** The closest place between each two tubes and of each to what it keeps off. */
  readonly gaps: readonly SceneGap[];
}

export interface SceneTube {
  /** Cylinder number, or the name of the collector a secondary comes from. */
  readonly id: string;
  /** 'cylinder 2' or 'secondary from front'. */
  readonly name: string;
  readonly cylinder: number | null;
  /** Name of the collector it ends at, and its inlet's number from 1. */
  readonly collector: string;
  readonly inlet: number;
  readonly length: number;
  readonly target: number;
  readonly tolerance: number;
  readonly segments: readonly SceneSegment[];
  /** From the start on; one where the tube does not grow. */
  readonly sections: readonly { readonly from: number; readonly od: number; readonly wall: number }[];
  readonly pieces: readonly { readonly name: string; readonly from: number; readonly to: number }[];
  readonly joints: readonly { readonly name: string; readonly at: number }[];
}

export type Triple = readonly [number, number, number];

export type SceneSegment =
  | { readonly kind: 'straight'; readonly from: Triple; readonly to: Triple }
  /** Starts at `from` along the unit `along`, turns about the unit `axis` through `centre` by `angle`. */
  | {
      readonly kind: 'bend';
      readonly from: Triple;
      readonly along: Triple;
      readonly centre: Triple;
      readonly axis: Triple;
      readonly clr: number;
      readonly angle: number;
    };

/** Kinds a reader can hide and show. */
export type SceneKind =
  | 'head'
  | 'port'
  | 'flange'
  | 'plate'
  | 'collector'
  | 'keep-out'
  | 'access'
  | 'scan'
  | 'jig'
  | 'bench-jig';

export interface SceneSolid {
  readonly kind: SceneKind;
  /** Safe as an id. */
  readonly name: string;
  /** In words. */
  readonly title: string;
  readonly mesh: SceneMesh;
}

/**
 * Triangles packed as text (`packed-mesh.ts`). Its points stand on a grid, and curved faces are of few facets: no place is further than
 * `error` mm from the true surface.
 */
export interface SceneMesh {
  /** Point of the grid that coordinates count from, mm. */
  readonly origin: Triple;
  /** Distance between points of the grid, mm. */
  readonly step: number;
  readonly error: number;
  /** How many there are of each. */
  readonly points: number;
  readonly triangles: number;
  readonly packed: string;
}

export interface SceneGap {
  /** Between tubes: in the open, in their approach to a common collector, or just before its inlets. */
  readonly kind: 'tubes' | 'approach' | 'run-in' | 'kept-out' | 'self';
  /** Ids of the tubes it concerns: two, or one. */
  readonly tubes: readonly string[];
  /** 'cylinders 1 and 2', 'cylinder 3 and steering shaft'. */
  readonly place: string;
  readonly value: number;
  readonly limit: number;
  /** The two ends of the gap, on one skin and on the other. */
  readonly from: Triple;
  readonly to: Triple;
}

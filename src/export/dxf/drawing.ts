import type { Outline } from '../../geometry/outline/outline.js';
import type { Vec2 } from '../../geometry/vec2.js';
import type { DrawingPlan } from '../../params/plan.js';

/** AutoCAD colour numbers that every reader shows alike. */
export const DXF_COLOUR = { red: 1, yellow: 2, green: 3, cyan: 4, blue: 5, magenta: 6, white: 7 } as const;

export interface DxfLayer {
  /** Capitals, digits, _ and -, 31 at most: what every reader takes. */
  readonly name: string;
  readonly colour: keyof typeof DXF_COLOUR;
}

interface OnLayer {
  readonly layer: string;
}

/** What a drawing can hold, mm. A closed outline is written as a circle where it is one, else as the options say. */
export type DxfEntity = OnLayer &
  (
    | { readonly kind: 'outline'; readonly outline: Outline }
    /** An open line through points, to be marked and not cut. */
    | { readonly kind: 'stroke'; readonly points: readonly Vec2[] }
    | { readonly kind: 'circle'; readonly centre: Vec2; readonly diameter: number }
    | { readonly kind: 'line'; readonly from: Vec2; readonly to: Vec2 }
    | {
        readonly kind: 'arc';
        readonly centre: Vec2;
        readonly radius: number;
        /** Counter-clockwise from start to end, rad. */
        readonly start: number;
        readonly end: number;
      }
    | { readonly kind: 'point'; readonly at: Vec2 }
    | {
        readonly kind: 'text';
        /** Left end, middle or right end of the line the words stand on. */
        readonly at: Vec2;
        readonly words: string;
        /** mm. */
        readonly height: number;
        readonly align?: 'left' | 'center' | 'right';
      }
  );

/** A flat drawing in mm at 1:1. */
export interface DxfDrawing {
  readonly layers: readonly DxfLayer[];
  readonly entities: readonly DxfEntity[];
}

/** How a drawing is written: unit of its numbers, version, and contours as polylines or as loose lines and arcs. */
export type DxfOptions = Pick<DrawingPlan, 'units' | 'version' | 'curves'>;

/** What is written where nothing else is asked for. */
export const USUAL_DXF: DxfOptions = { units: 'mm', version: 'r2007', curves: 'polylines' };

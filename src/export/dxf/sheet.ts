import type { Vec2 } from '../../geometry/vec2.js';
import type { DxfShape } from './shapes.js';

/** A drawing ready to be written in any version: every number in the file's unit and rounded. */
export interface DxfSheet {
  readonly units: 'mm' | 'in';
  /** Colours by AutoCAD number. */
  readonly layers: readonly { readonly name: string; readonly colour: number }[];
  readonly shapes: readonly { readonly layer: string; readonly shape: DxfShape }[];
  /** Lowest and highest corner of all that is drawn. */
  readonly from: Vec2;
  readonly to: Vec2;
}

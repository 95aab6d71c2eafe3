import type { Plan } from '../../params/plan.js';
import type { FlangePart } from '../flange/part.js';
import { flatFlange } from './flat-flange.js';
import type { FlatPart } from './flat-part.js';
import { gasketsOf } from './gasket.js';
import { type PlatePart, platesOf } from './plate.js';

/** All that is cut from flat stock for a plan. */
export interface FlatParts {
  readonly plates: readonly PlatePart[];
  /** Flanges first, then plates, then gaskets. */
  readonly all: readonly FlatPart[];
}

/** Flanges, plates and gaskets of a plan. */
export function flatPartsOf(plan: Plan, flanges: readonly FlangePart[]): FlatParts {
  const flat = flanges.map((f) => flatFlange(f, plan.drawing.engrave));
  const plates = platesOf(plan);
  return { plates, all: [...flat, ...plates.map((p) => p.flat), ...gasketsOf(plan, flat, plates)] };
}

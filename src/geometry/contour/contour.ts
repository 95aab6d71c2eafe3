import type { Side } from '../outline/sides.js';
import type { Vec2 } from '../vec2.js';

/** One line or arc of a drawing or a trace, mm, and where it stands in the file. */
export interface NamedSide {
  readonly side: Side;
  /** `LINE 2F (line 120)`. */
  readonly name: string;
  /** How far it may lie from the curve it stands for, mm: 0 for a line or arc of the file itself. */
  readonly error: number;
}

/** What one entity draws: sides that follow each other. */
export interface Piece {
  readonly name: string;
  readonly sides: readonly NamedSide[];
  /** True when the last side ends where the first begins. */
  readonly closed: boolean;
}

/** A closed run of sides, in either sense of turning. */
export type Contour = readonly NamedSide[];

/** A place for people, mm: `12.3, 4.56 mm`. */
export const placeWords = (p: Vec2): string => `${p.map(shortNumber).join(', ')} mm`;

/** A number for people: three decimals, without trailing zeros. */
export const shortNumber = (value: number): string => String(Math.round(value * 1000) / 1000 + 0);

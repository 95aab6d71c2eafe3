import modeling from '@jscad/modeling';
import { distance2, type Vec2 } from '../vec2.js';
import { raised, type Solid } from './solid.js';

const { vectorText } = modeling.text;

/** Width of a stroke over the height of a capital. */
const STROKE = 0.18;

/** Text as strokes: chains of points about the middle of its box, x along the line of writing, mm. */
export interface Strokes {
  readonly lines: readonly (readonly Vec2[])[];
  /** Width of a stroke, mm. */
  readonly stroke: number;
  /** Box of the written text, strokes' width included, mm. */
  readonly width: number;
  readonly height: number;
}

/** A line of text in jscad's stroke font, as high as `height` mm over all. Throws RangeError for text without strokes. */
export function textStrokes(text: string, height: number): Strokes {
  const raw = vectorText({ height: 10, align: 'left' }, text);
  const xs = raw.flatMap((line) => line.map((p) => p[0]));
  const ys = raw.flatMap((line) => line.map((p) => p[1]));
  if (xs.length === 0) throw new RangeError(`'${text}' has nothing to write`);
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const stroke = STROKE * height;
  const k = (height - stroke) / CAPITAL;
  const middle: Vec2 = [(left + right) / 2, (low + high) / 2];
  return {
    lines: raw.map((line) => line.map((p): Vec2 => [(p[0] - middle[0]) * k, (p[1] - middle[1]) * k])),
    stroke,
    width: (right - left) * k + stroke,
    height: (high - low) * k + stroke,
  };
}

/** Height of a figure or capital in the font as drawn at height 10: 15 of its units (measured). */
const CAPITAL = 15;

/** The text as a body from z = `from` to z = `to`, mm, read from above: every stroke a rounded bar. */
export function textSolid({ lines, stroke }: Strokes, from: number, to: number): Solid {
  const bars = lines.flatMap((line) =>
    line.slice(1).flatMap((q, i) => (distance2(line[i]!, q) > 1e-6 ? [strokeBar(line[i]!, q, stroke)] : [])),
  );
  return raised(bars, from, to);
}

/** Chords round either end of a stroke. */
const END_CHORDS = 6;

/** A bar with round ends, counter-clockwise. */
function strokeBar(p: Vec2, q: Vec2, width: number): Vec2[] {
  const heading = Math.atan2(q[1] - p[1], q[0] - p[0]);
  return [q, p].flatMap((end, i) =>
    Array.from({ length: END_CHORDS + 1 }, (_, k): Vec2 => {
      const a = heading + i * Math.PI + Math.PI * (k / END_CHORDS - 0.5);
      return [end[0] + (width / 2) * Math.cos(a), end[1] + (width / 2) * Math.sin(a)];
    }),
  );
}

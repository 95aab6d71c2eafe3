import modeling from '@jscad/modeling';
import type { Vec2 } from '../vec2.js';

const { vectorText } = modeling.text;

/** Height of a capital in the font as drawn at height 10: 15 of its units (measured). */
const CAPITAL = 15;

/** Open lines about the middle of their box, x along the line of writing, mm. */
export interface StrokeText {
  readonly lines: readonly (readonly Vec2[])[];
  /** mm. */
  readonly width: number;
  readonly height: number;
}

/** A line of words as single strokes in jscad's simplex font, capitals `height` mm high. Throws RangeError for words without strokes. */
export function strokeText(words: string, height: number): StrokeText {
  const k = height / CAPITAL;
  const lines = vectorText({ height: 10, align: 'left' }, words)
    .map((line) => line.map(([x, y]): Vec2 => [x * k, y * k]))
    .map((line) => line.filter((p, i) => i === 0 || Math.hypot(p[0] - line[i - 1]![0], p[1] - line[i - 1]![1]) > 1e-6))
    .filter((line) => line.length > 1);
  if (lines.length === 0) throw new RangeError(`'${words}' has nothing to write`);
  return aboutMiddle(lines);
}

/** 'UP' with an arrow before it that points up, capitals `height` mm high. */
export function strokeUp(height: number): StrokeText {
  const word = strokeText('UP', height);
  const x = -word.width / 2 - height * 0.7;
  const [low, high, head] = [-height / 2, height / 2, height * 0.3];
  const arrow: readonly (readonly Vec2[])[] = [
    [
      [x, low],
      [x, high],
    ],
    [
      [x - head, high - head],
      [x, high],
      [x + head, high - head],
    ],
  ];
  return aboutMiddle([...arrow, ...word.lines]);
}

function aboutMiddle(lines: readonly (readonly Vec2[])[]): StrokeText {
  const xs = lines.flatMap((line) => line.map((p) => p[0]));
  const ys = lines.flatMap((line) => line.map((p) => p[1]));
  const [left, right, low, high] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
  const [x, y] = [(left + right) / 2, (low + high) / 2];
  return {
    lines: lines.map((line) => line.map((p): Vec2 => [p[0] - x, p[1] - y])),
    width: right - left,
    height: high - low,
  };
}

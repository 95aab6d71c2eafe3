import { expect, test } from 'vitest';
import { strokeText, strokeUp } from '../../../src/geometry/solid/stroke-font.js';

const box = (lines: readonly (readonly (readonly [number, number])[])[]) => {
  const xs = lines.flat().map((p) => p[0]);
  const ys = lines.flat().map((p) => p[1]);
  return [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)];
};

test.each(['1', '16', 'UP', 'H8'])('%s stands about the middle of its box, as high as asked', (words) => {
  const { lines, width, height } = strokeText(words, 6);
  expect(height).toBeCloseTo(6, 9);
  const [left, right, low, high] = box(lines);
  expect([left, right, low, high]).toEqual([-width / 2, width / 2, -3, 3].map((v) => expect.closeTo(v, 9)));
});

test('every stroke is an open line of two points or more, none repeated', () => {
  for (const line of strokeText('0123456789 plan', 4).lines) {
    expect(line.length).toBeGreaterThan(1);
    line.slice(1).forEach((p, i) => {
      expect(Math.hypot(p[0] - line[i]![0], p[1] - line[i]![1])).toBeGreaterThan(1e-6);
    });
  }
});

test('the arrow of UP points up', () => {
  const [shaft, head] = strokeUp(5).lines;
  expect(shaft![1]![1]).toBeGreaterThan(shaft![0]![1]);
  expect(head![1]).toEqual(shaft![1]);
  expect(head![0]![1]).toBeLessThan(head![1]![1]);
});

test('words without strokes are refused', () => {
  expect(() => strokeText(' ', 5)).toThrow(RangeError);
});

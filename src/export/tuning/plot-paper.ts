import type { Vec2 } from '../../geometry/vec2.js';
import type { Doc } from '../paper/document.js';
import { words } from '../paper/words.js';
import type { Block } from '../sheets/block.js';
import { type LinePlot, STROKES } from './line-plot.js';
import { type Axis, axisFor, ticksOf } from './plot-axis.js';

/** Sizes on paper, mm. */
const FRAME = { left: 18, top: 9, width: 130, height: 58 };
const HEIGHT = 82;
const TYPE = 2.8;

/** Points of the dash patterns in mm. */
const DASH = 0.35;

/** A plot on paper: the same axes, colours and dashes as on the screen, in black for words and lines of the frame. */
export const plotBlock = (plot: LinePlot): Block => ({
  height: HEIGHT,
  draw: (doc, [x0, y0]) => {
    const { left, top, width, height } = FRAME;
    const box = { left: x0 + left, right: x0 + left + width, top: y0 + top, bottom: y0 + top + height };
    const all = plot.lines.flatMap((l) => l.points);
    const levels = (plot.levels ?? []).map((l) => l.at);
    const x = axisFor([...all.map(([v]) => v), ...(plot.x.include ?? [])], box.left, box.right, 'tight');
    const y = axisFor([...all.map(([, v]) => v), ...levels, ...(plot.y.include ?? [])], box.bottom, box.top, 'round');
    words(doc, plot.title, box.left, y0 + 5, 3.2, 'left', true);
    drawBands(doc, plot, x, box);
    drawGrid(doc, plot, x, y, box);
    plot.lines.forEach((line, i) => {
      stroke(
        doc,
        i,
        line.points.map(([a, b]) => [x.place(a), y.place(b)] as const),
      );
      const at = box.top + 3 + i * 5.5;
      stroke(doc, i, [
        [box.right + 6, at],
        [box.right + 16, at],
      ]);
      words(doc, line.label, box.right + 19, at + 1, TYPE);
    });
  },
});

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function drawBands(doc: Doc, { bands = [] }: LinePlot, x: Axis, box: Box): void {
  for (const { from, to, label } of bands) {
    const [a, b] = [from, to].map((v) => Math.min(Math.max(x.place(v), box.left), box.right)) as [number, number];
    if (b - a < 0.1) continue;
    doc
      .rect(a, box.top, b - a, box.bottom - box.top)
      .fill('#ebebeb')
      .fillColor('black');
    words(doc, label, (a + b) / 2, box.top + 3.4, TYPE, 'center');
  }
}

function drawGrid(doc: Doc, plot: LinePlot, x: Axis, y: Axis, box: Box): void {
  const line = (x1: number, y1: number, x2: number, y2: number, colour: string): void => {
    doc.lineWidth(0.15).strokeColor(colour).moveTo(x1, y1).lineTo(x2, y2).stroke();
  };
  for (const { value, label } of ticksOf(x)) {
    line(x.place(value), box.top, x.place(value), box.bottom, '#cccccc');
    words(doc, label, x.place(value), box.bottom + 4, TYPE, 'center');
  }
  for (const { value, label } of ticksOf(y)) {
    line(box.left, y.place(value), box.right, y.place(value), '#cccccc');
    words(doc, label, box.left - 1.5, y.place(value) + 1, TYPE, 'right');
  }
  for (const { at, label } of plot.levels ?? []) {
    line(box.left, y.place(at), box.right, y.place(at), 'black');
    words(doc, label, box.right - 1, y.place(at) - 1, TYPE, 'right');
  }
  line(box.left, box.bottom, box.right, box.bottom, 'black');
  line(box.left, box.top, box.left, box.bottom, 'black');
  words(doc, `${plot.x.label}, ${plot.x.unit}`, (box.left + box.right) / 2, box.bottom + 9, TYPE, 'center');
  doc
    .save()
    .translate(box.left - 14, (box.top + box.bottom) / 2)
    .rotate(-90);
  words(doc, `${plot.y.label}, ${plot.y.unit}`, 0, 0, TYPE, 'center');
  doc.restore();
}

function stroke(doc: Doc, i: number, points: readonly Vec2[]): void {
  const [colour, dash] = STROKES[i % STROKES.length]!;
  doc.save().lineWidth(0.5).strokeColor(colour);
  if (dash !== '') dashed(doc, dash);
  points.forEach(([a, b], k) => {
    if (k === 0) doc.moveTo(a, b);
    else doc.lineTo(a, b);
  });
  doc.stroke().restore();
}

/** The dash pattern in the page's mm: the library's own `dash` takes one length and space. */
function dashed(doc: Doc, pattern: string): void {
  const lengths = pattern.split(' ').map((n) => Number((Number(n) * DASH).toFixed(3)));
  doc.addContent(`[${lengths.join(' ')}] 0 d`);
}

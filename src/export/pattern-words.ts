import { outlineBounds } from '../geometry/outline/measure.js';
import { lengthWords, sizeWords } from '../params/faults/wording.js';
import { cutContour } from '../parts/patterns/cut-contour.js';
import type { Pattern, PatternLine } from '../parts/patterns/pattern.js';

/** What is said of a pattern beside it, one line each, the piece first. */
export function patternWords(p: Pattern): string[] {
  const { from, to } = outlineBounds(cutContour(p));
  const what =
    p.plate === null
      ? `${p.tube!.side === 'outside' ? 'Wraps round' : 'Rolls inside'} tube ${sizeWords([p.tube!.od, p.tube!.wall], p.units, 2)}`
      : `${lengthWords(p.plate.thickness, p.units)} ${p.plate.material}`;
  const exact =
    p.deviation === 0
      ? 'exact arcs'
      : `lines and arcs within ${lengthWords(Math.ceil(p.deviation * 1e4) / 1e4, p.units, 4)}`;
  return [
    `${what}; ${p.count} ${p.count === 1 ? 'piece' : 'pieces'}; ${sizeWords([to[0] - from[0], to[1] - from[1]], p.units, 1)}`,
    ...p.lines.filter((l) => l.label.includes(':')).map((l) => `Line ${l.label}`),
    ...p.notes,
    `1:1: ${exact}. Try the pattern on a scrap before you cut`,
    'Cutting and welding: eye, hand, lung and fire protection; follow local codes',
  ];
}

/** What stands on a line of the pattern: the whole label where the line has room for it, else what comes before the colon. */
export function labelOn({ label, points }: PatternLine, letter: number): string {
  const [a, b] = [points[0]!, points.at(-1)!];
  const room = Math.hypot(b[0] - a[0], b[1] - a[1]);
  return label.length * letter <= room ? label : label.split(':')[0]!;
}

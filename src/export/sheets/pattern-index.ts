import { outlineBounds } from '../../geometry/outline/measure.js';
import { lengthWords, sizeWords } from '../../params/faults/wording.js';
import type { Pattern } from '../../parts/patterns/pattern.js';
import type { TiledPrint } from '../paper/tile-pages.js';
import { heading, paragraph, space } from './block.js';
import { lengthLines, type Units } from './sheet-numbers.js';
import { addSheet, type SheetSet } from './sheet-set.js';
import { type Cell, type Column, table } from './table.js';

/** A pattern and its pages at 1:1. */
export interface PrintedPattern {
  readonly pattern: Pattern;
  readonly tiled: TiledPrint;
}

const COLUMNS: readonly Column[] = [
  { head: 'pattern', align: 'left' },
  { head: 'what', align: 'left' },
  { head: 'use', align: 'left' },
  { head: 'marks pieces', align: 'right' },
  { head: 'width', align: 'right', key: true },
  { head: 'height', align: 'right', key: true },
  { head: 'pages', align: 'right' },
  { head: 'cut out', align: 'center', fill: 'box' },
];

/** The sheet that lists the patterns that follow at 1:1. */
export function patternIndex(set: SheetSet, patterns: readonly PrintedPattern[], units: Units): void {
  const { doc, width } = set;
  const rows = patterns.map(({ pattern, tiled }): Cell[] => {
    const { from, to } = outlineBounds(pattern.outline);
    return [
      pattern.name,
      pattern.title,
      useWords(pattern),
      String(pattern.count),
      lengthLines(to[0] - from[0], 2, units),
      lengthLines(to[1] - from[1], 2, units),
      String(tiled.tiling.tiles.length),
      '',
    ];
  });
  addSheet(set, 'Patterns', [
    heading('Flat developments, at 1:1 on the pages that follow'),
    ...table(doc, COLUMNS, rows, width),
    space(2),
    ...paragraph(
      doc,
      'Each stands alone in the folder patterns too. Print at 100 % (actual size) and lay a steel rule on both rulers of every page.',
      width,
    ),
  ]);
}

const useWords = ({ use, tube, plate, units }: Pattern): string => {
  if (tube !== null) return `${use} round ${sizeWords([tube.od, tube.wall], units)}, ${tube.side}`;
  return plate === null ? use : `${use}, ${lengthWords(plate.thickness, units)} ${plate.material}`;
};

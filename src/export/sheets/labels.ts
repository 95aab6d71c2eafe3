import { distance2, type Vec2 } from '../../geometry/vec2.js';
import type { Doc } from '../paper/document.js';
import { BODY, widthOfWords, words } from '../paper/words.js';
import { type Blocker, placeLabels } from './place-labels.js';

/** Words that belong to a point of a drawing. `ring` puts a circle round them. */
export interface Label {
  readonly at: Vec2;
  readonly line: string;
  readonly ring: boolean;
  readonly bold?: boolean;
}

/** Places labels near their points and draws them, each with a thin line to its point where it stands away from it. */
export function drawLabels(
  doc: Doc,
  labels: readonly Label[],
  blockers: readonly Blocker[],
  from: Vec2,
  to: Vec2,
): void {
  const sizes = labels.map(({ line, ring, bold }): Vec2 => {
    const w = widthOfWords(doc, line, BODY, bold);
    return ring ? [Math.max(w, BODY) + 2, Math.max(w, BODY) + 2] : [w, BODY];
  });
  const wishes = labels.map(({ at, ring }, i) => ({ at, size: sizes[i]!, onPoint: ring }));
  const places = placeLabels(wishes, blockers, from, to);
  labels.forEach((l, i) => {
    drawLeader(doc, l.at, places[i]!, sizes[i]!, l.ring);
  });
  labels.forEach((l, i) => {
    const [x, y] = places[i]!;
    if (l.ring)
      doc
        .lineWidth(0.2)
        .circle(x, y, sizes[i]![0] / 2)
        .fillAndStroke('white', 'black')
        .fillColor('black');
    words(doc, l.line, x, y + 1.15, BODY, 'center', l.bold);
  });
}

function drawLeader(doc: Doc, point: Vec2, at: Vec2, [w, h]: Vec2, ring: boolean): void {
  const end: Vec2 = ring
    ? at
    : [
        Math.min(Math.max(point[0], at[0] - w / 2 - 0.5), at[0] + w / 2 + 0.5),
        Math.min(Math.max(point[1], at[1] - h / 2 - 0.5), at[1] + h / 2 + 0.5),
      ];
  if (distance2(point, end) < 0.5) return;
  doc.lineWidth(0.12).strokeColor('#444444').moveTo(point[0], point[1]).lineTo(end[0], end[1]).stroke();
  doc.strokeColor('black').fillColor('black').circle(point[0], point[1], 0.45).fill();
}

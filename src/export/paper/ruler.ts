import type { Vec2 } from '../../geometry/vec2.js';
import type { Doc } from './document.js';
import { BODY, words } from './words.js';

/** Length of the check rulers, mm. */
const RULER = 100;

/** Where the ticks of a ruler stand along it, mm, and how long they are. */
const TICKS = Array.from({ length: RULER / 5 + 1 }, (_, i) => ({
  at: 5 * i,
  long: i % 10 === 0 ? 4 : i % 2 === 0 ? 2.6 : 1.6,
}));

/** A ruler to the right from a point of the page, mm. */
export function levelRuler(doc: Doc, [x, y]: Vec2): void {
  doc
    .lineWidth(0.15)
    .moveTo(x, y)
    .lineTo(x + RULER, y)
    .stroke();
  for (const { at, long } of TICKS) {
    doc
      .moveTo(x + at, y)
      .lineTo(x + at, y - long)
      .stroke();
    if (at % 50 === 0) words(doc, String(at), x + at + 0.8, y - 2.8, BODY);
  }
  words(doc, `${RULER} mm across`, x + RULER / 4, y + 3.8, BODY, 'center');
}

/** A ruler upwards from a point of the page, mm. */
export function uprightRuler(doc: Doc, [x, y]: Vec2): void {
  doc
    .lineWidth(0.15)
    .moveTo(x, y)
    .lineTo(x, y - RULER)
    .stroke();
  for (const { at, long } of TICKS) {
    doc
      .moveTo(x, y - at)
      .lineTo(x + long, y - at)
      .stroke();
    if (at % 50 === 0) words(doc, String(at), x - 0.6, y - at + 1.1, BODY, 'right');
  }
  doc
    .save()
    .translate(x - 1.4, y - RULER / 4)
    .rotate(-90);
  words(doc, `${RULER} mm up`, 0, 0, BODY, 'center');
  doc.restore();
}

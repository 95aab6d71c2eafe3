import type { Vec2 } from '../../geometry/vec2.js';
import type { Doc } from '../paper/document.js';
import { BODY, widthOfWords, words } from '../paper/words.js';
import { THIN } from './header-picture.js';
import { spreadApart } from './spread.js';

/** Length and half-width of a dimension's tips, mm. */
const TIP: Vec2 = [2, 0.45];

/** Distances along a line below a drawing, end to end: `stops` are places across the page and `lines` what stands between them. */
export function chainBelow(
  doc: Doc,
  stops: readonly number[],
  lines: readonly string[],
  y: number,
  feature: number,
  room: Vec2,
): void {
  doc.lineWidth(THIN).strokeColor('black');
  for (const x of stops) {
    doc
      .moveTo(x, feature)
      .lineTo(x, y + 1.2)
      .stroke();
  }
  const middles = lines.map((_, i) => (stops[i]! + stops[i + 1]!) / 2);
  const places = spreadApart(
    lines.map((line, i) => ({ at: middles[i]!, width: widthOfWords(doc, line, BODY) + 2.5 })),
    room[0],
    room[1],
  );
  lines.forEach((line, i) => {
    between(doc, [stops[i]!, y], [stops[i + 1]!, y]);
    if (Math.abs(places[i]! - middles[i]!) > 0.8) {
      doc
        .moveTo(middles[i]!, y)
        .lineTo(places[i]!, y + 1.6)
        .stroke();
    }
    const w = widthOfWords(doc, line, BODY) + 1;
    doc
      .rect(places[i]! - w / 2, y + 1.7, w, 3.4)
      .fill('white')
      .fillColor('black');
    words(doc, line, places[i]!, y + 4.4, BODY, 'center');
  });
}

/** A height beside a drawing: its words read from the right. */
export function upright(doc: Doc, x: number, from: number, to: number, line: string, feature: Vec2): void {
  doc.lineWidth(THIN).strokeColor('black');
  for (const [y, at] of [
    [from, feature[0]],
    [to, feature[1]],
  ] as const) {
    doc
      .moveTo(at, y)
      .lineTo(x + (x > at ? 1.2 : -1.2), y)
      .stroke();
  }
  between(doc, [x, from], [x, to]);
  doc
    .save()
    .translate(x - 1.2, (from + to) / 2)
    .rotate(-90);
  words(doc, line, 0, 0, BODY, 'center');
  doc.restore();
}

/** A line with a filled tip at both ends; tips point inwards from outside where there is no room between. */
function between(doc: Doc, a: Vec2, b: Vec2): void {
  const l = Math.hypot(b[0] - a[0], b[1] - a[1]);
  if (l < 1e-6) return;
  const u: Vec2 = [(b[0] - a[0]) / l, (b[1] - a[1]) / l];
  const inwards = l > 2.5 * TIP[0] ? 1 : -1;
  doc.lineWidth(THIN).moveTo(a[0], a[1]).lineTo(b[0], b[1]).stroke();
  tip(doc, a, [u[0] * inwards, u[1] * inwards]);
  tip(doc, b, [-u[0] * inwards, -u[1] * inwards]);
}

function tip(doc: Doc, at: Vec2, [ux, uy]: Vec2): void {
  const back: Vec2 = [at[0] + TIP[0] * ux, at[1] + TIP[0] * uy];
  doc
    .moveTo(at[0], at[1])
    .lineTo(back[0] - TIP[1] * uy, back[1] + TIP[1] * ux)
    .lineTo(back[0] + TIP[1] * uy, back[1] - TIP[1] * ux)
    .closePath()
    .fill('black')
    .fillColor('black');
}

import { shortHash } from '../../params/plan-hash.js';
import type { BookInput } from './book-input.js';
import type { BookSection } from './book-section.js';
import { type Drawing, drawingFigure, drawingOf, fileLink, pictureAddress } from './drawing.js';
import { type Html, html } from './html.js';
import { patternTiles, TILE } from './pattern-tiles.js';
import { section } from './section.js';

/** Flat developments: looked at on the screen, at 1:1 on paper, each page with a square to measure. Null where there are none. */
export function patternsSection({ plan, files }: BookInput): BookSection | null {
  const drawings = files.filter((f) => /^patterns\/.*\.svg$/.test(f.path)).map(drawingOf);
  if (drawings.length === 0) return null;
  const stamp = `${plan.name}, plan ${shortHash(plan.hash)}`;
  return section(
    'patterns',
    'Patterns',
    html`<p class="on-screen">Flat developments. On paper this book shows them at 1:1, parted on pages where they are larger than one, each with a square to measure. Browsers may scale what they print: set 100 % (actual size), or print the PDF beside each, which is made for it.</p>
<p class="on-screen"><button type="button" data-print="patterns" hidden>Print the patterns alone at 1:1</button></p>
`,
    drawings.map((d) => patternPart(d, stamp)),
  );
}

function patternPart(drawing: Drawing, stamp: string): Html {
  const pdf = drawing.path.replace(/svg$/, 'pdf');
  const tiles = patternTiles(drawing, stamp);
  const pages = tiles.map(
    (t) =>
      html`<div class="tile"><img src="${pictureAddress(t.svg)}" alt="${drawing.title} at 1:1, page ${t.name}" style="width:${TILE.width}mm;height:${TILE.height}mm"></div>
`,
  );
  const count = tiles.length === 1 ? 'one page' : `${tiles.length} pages`;
  return html`<div class="on-screen">${drawingFigure(drawing, `Pattern: ${drawing.title}`, [
    html`At 1:1 on ${count} of A4 or Letter; made for print: ${fileLink(pdf)}`,
  ])}</div>
<div class="on-paper" aria-hidden="true">${pages}</div>
`;
}

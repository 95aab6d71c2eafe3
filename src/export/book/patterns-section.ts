import { outlineBounds } from '../../geometry/outline/measure.js';
import { shortHash } from '../../params/text/plan-hash.js';
import { cutContour } from '../../parts/patterns/cut-contour.js';
import type { Pattern } from '../../parts/patterns/pattern.js';
import { patternWords } from '../pattern-words.js';
import type { BookInput } from './book-input.js';
import type { BookSection } from './book-section.js';
import { type Drawing, drawingFigure, drawingOf, fileLink, pictureAddress } from './drawing.js';
import { html } from './html.js';
import { type PatternTile, patternTiles, TILE } from './pattern-tiles.js';
import { section } from './section.js';

/** Flat developments: looked at on the screen, at 1:1 on paper, each page with a square to measure. Null where there are none. */
export function patternsSection({ plan, patterns, files }: BookInput): BookSection | null {
  if (patterns.length === 0) return null;
  const stamp = `${plan.name}, plan ${shortHash(plan.hash)}`;
  const drawn = patterns.map((pattern) => {
    const drawing = drawingOf(files.find((f) => f.path === `patterns/${pattern.name}.svg`)!);
    return { drawing, tiles: tilesOf(pattern, drawing, stamp) };
  });
  return section(
    'patterns',
    'Patterns',
    html`<p class="on-screen">Flat developments. On paper this book shows them at 1:1, parted on pages where they are larger than one, each with a square to measure. Browsers may scale what they print: set 100\u00a0% (actual size), or print the PDF beside each, which is made for it.</p>
<p class="on-screen"><button type="button" data-print="patterns" hidden>Print the patterns alone at 1:1</button></p>
<p class="on-paper">At 1:1 on the pages that follow: ${drawn.map((d) => d.drawing.title).join('; ')}.</p>
`,
    drawn.map(({ drawing, tiles }) => [onScreen(drawing, tiles), onPaper(drawing, tiles)]),
  );
}

function tilesOf(pattern: Pattern, { title, text }: Drawing, stamp: string): PatternTile[] {
  const { from, to } = outlineBounds(cutContour(pattern));
  const box = { from: [from[0], -to[1]], to: [to[0], -from[1]] } as const;
  return patternTiles({ title, words: patternWords(pattern), svg: text, stamp, ...box });
}

function onScreen(drawing: Drawing, tiles: readonly PatternTile[]) {
  const pages = tiles.length === 1 ? 'one page' : `${tiles.length} pages`;
  const pdf = fileLink(drawing.path.replace(/svg$/, 'pdf'));
  const words = html`At 1:1 on ${pages} of A4 or Letter; made for print: ${pdf}`;
  return html`<div class="on-screen">${drawingFigure(drawing, `Pattern: ${drawing.title}`, [words])}</div>
`;
}

const onPaper = ({ title }: Drawing, tiles: readonly PatternTile[]) =>
  tiles.map(
    (t) =>
      html`<div class="tile on-paper"><img src="${pictureAddress(t.svg)}" alt="${title} at 1:1, page ${t.name}" style="width:${TILE.width}mm;height:${TILE.height}mm"></div>
`,
  );

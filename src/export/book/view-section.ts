import type { OutputFile } from '../output-file.js';
import type { BookInput } from './book-input.js';
import type { BookSection } from './book-section.js';
import { pictureAddress } from './drawing.js';
import { OVERVIEW } from './drawings-section.js';
import { type Html, html } from './html.js';
import { section } from './section.js';

/**
 * The header to look at: room for the solid view, which the script fills, and three views drawn for paper and for where there is no
 * script.
 */
export function viewSection({ scene, files }: BookInput): BookSection {
  const overview = files.find((f) => f.path === OVERVIEW)!;
  const drawn = overviewFigure(overview, 'The header');
  return section(
    'view',
    'The header',
    scene === null
      ? drawn
      : html`${viewHost()}<div class="for-paper">${drawn}</div>
`,
  );
}

/** Room for the solid view, which keeps its size while the script fills it; `name` is what it is called where others are laid over it. */
export const viewHost = (name = ''): Html => html`<div class="view-host" data-view="${name}"></div>
<noscript><p>The solid view needs a browser that runs the script of this page.</p></noscript>
`;

/** The three views as a picture. */
export const overviewFigure = (overview: OutputFile, name: string): Html =>
  html`<figure class="overview"><div class="scroll paper" tabindex="0" role="group" aria-label="${name} in three views"><img src="${pictureAddress(new TextDecoder().decode(overview.bytes))}" alt="${name} in three views: front, side and top" width="1489" height="911"></div></figure>
`;

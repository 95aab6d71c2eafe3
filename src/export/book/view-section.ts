import type { BookInput } from './book-input.js';
import type { BookSection } from './book-section.js';
import { pictureAddress } from './drawing.js';
import { OVERVIEW } from './drawings-section.js';
import { html } from './html.js';
import { section } from './section.js';

/**
 * The header to look at: room for the solid view, which the script fills, and three views drawn for paper and for where there is no
 * script.
 */
export function viewSection({ scene, files }: BookInput): BookSection {
  const overview = files.find((f) => f.path === OVERVIEW);
  const picture = overview === undefined ? null : pictureAddress(new TextDecoder().decode(overview.bytes));
  return section(
    'view',
    'The header',
    scene === null
      ? null
      : html`<div class="view-host" data-view="scene"></div>
`,
    picture === null
      ? null
      : html`<figure class="overview${scene === null ? '' : ' for-paper'}"><div class="scroll paper"><img src="${picture}" alt="The header in three views: front, side and top" width="1489" height="911"></div></figure>
`,
  );
}

import type { BookSection } from './book-section.js';
import type { Html, HtmlPart } from './html.js';
import { html } from './html.js';

/** A section made of parts, in order. */
export const section = (id: string, title: string, ...parts: readonly HtmlPart[]): BookSection => ({
  id,
  title,
  html: html`${parts}`.html,
});

/** A paragraph. */
export const paragraph = (words: HtmlPart): Html => html`<p>${words}</p>
`;

/** A heading within a section. */
export const subheading = (words: string): Html => html`<h3>${words}</h3>
`;

/** What is only read when wanted: closed on the screen; on paper open, or left out. */
export const folded = (words: string, part: HtmlPart, paper: 'open' | 'left out' = 'open'): Html => html`<details${
  paper === 'open' ? null : html` class="on-screen"`
}><summary>${words}</summary>
${part}</details>
`;

import { createHash } from 'node:crypto';
import type { BookSection } from './book-section.js';
import { type Html, html, safe } from './html.js';
import { STYLE } from './style.js';

/** What a page is made of. */
export interface Page {
  readonly title: string;
  readonly head: Html;
  readonly sections: readonly BookSection[];
  readonly foot: string;
  /** Blocks of data by their ids, as plain JSON. */
  readonly data: Readonly<Record<string, unknown>>;
  readonly script: string;
}

/**
 * One self-contained page that opens from disk: style, data and script within, and a policy that forbids every call to a network
 * (Content Security Policy Level 3; the script is allowed by its sum alone).
 */
export function pageText(page: Page): string {
  const script = withinScript(page.script);
  const sum = createHash('sha256').update(script).digest('base64');
  const allowed = script === '' ? "'none'" : `'sha256-${sum}'`;
  const policy = `default-src 'none'; script-src ${allowed}; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'`;
  return html`<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${policy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="generator" content="evenrun">
<meta name="color-scheme" content="light dark">
<title>${page.title}</title>
<style>${safe(STYLE)}</style>
</head>
<body>
<a class="skip" href="#main">Skip to the book</a>
<div class="top"><span class="mark" aria-hidden="true"><i></i><i></i><i></i><i></i></span><span class="name">${page.title}</span><span class="tools"><button type="button" data-theme-button hidden>Light or dark: system</button><button type="button" data-print="all" hidden>Print</button></span></div>
<div class="frame">
<nav class="contents" aria-label="Contents"><ol>
${page.sections.map(
  (s) => html`<li><a href="#${s.id}">${s.title}</a></li>
`,
)}</ol></nav>
<main id="main" tabindex="-1">
${page.head}${page.sections.map(
  (s) => html`<section id="${s.id}" aria-labelledby="${s.id}-title"><h2 id="${s.id}-title">${s.title}</h2>
${safe(s.html)}</section>
`,
)}<footer><p>${page.foot}</p></footer>
</main>
</div>
${Object.entries(page.data).map(
  ([id, value]) => html`<script type="application/json" id="${id}">${safe(json(value))}</script>
`,
)}${
  script === ''
    ? null
    : html`<script>${safe(script)}</script>
`
}</body>
</html>
`.html;
}

/** JSON that no text within can end. */
const json = (value: unknown): string => JSON.stringify(value).replaceAll('<', '\\u003c');

/** A script whose strings cannot end it nor open a comment of the page. */
const withinScript = (script: string): string => script.replace(/<\/(?=script)/gi, '<\\/').replaceAll('<!--', '<\\!--');

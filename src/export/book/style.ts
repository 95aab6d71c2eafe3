import { FIGURE_STYLE } from './style-figures.js';
import { LAYOUT_STYLE } from './style-layout.js';
import { PRINT_STYLE } from './style-print.js';

/**
 * Colours by what they say, shared with the solid view. Each pair of ink and ground has a contrast of at least 4.5 to 1 (WCAG 2.2,
 * 1.4.3), and good, bad and warn differ in lightness and carry a sign too, so that nothing is told by hue alone.
 */
const LIGHT =
  '--ground:#fbfbf9;--raised:#ffffff;--ink:#16212a;--quiet:#4c5b66;--line:#d3dade;--accent:#0f5c8c;--bar:#2f7cab;--good:#0b6553;--bad:#a8321a;--warn:#7d5300;--band:#cfe6dd;color-scheme:light;';
const DARK =
  '--ground:#10171c;--raised:#172128;--ink:#e9eef0;--quiet:#a5b4bd;--line:#34434d;--accent:#7cc0ec;--bar:#4d9dcf;--good:#5fcdac;--bad:#ff9478;--warn:#efbb5c;--band:#1d4339;color-scheme:dark;';

const COLOURS = `
:root{${LIGHT}}
@media screen and (prefers-color-scheme:dark){:root:not([data-theme="light"]){${DARK}}}
@media screen{:root[data-theme="dark"]{${DARK}}}
`;

/** The look of every page that opens from disk. */
export const STYLE = `${COLOURS}${LAYOUT_STYLE}${FIGURE_STYLE}${PRINT_STYLE}`;

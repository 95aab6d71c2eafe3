/**
 * Colours of a page in light and dark, as variables. Text on its ground is above 7 : 1 for --ink, above 4.5 : 1 for --quiet, --accent,
 * --good, --bad and --warn.
 */
export const THEME_STYLE = `
:root, [data-theme="light"] {
  color-scheme: light;
  --ground: #f8f7f4; --raised: #ffffff; --ink: #1d2226; --quiet: #565e66; --line: #cfccc4;
  --accent: #0b5f8a; --good: #1c6b43; --bad: #a32a1c; --warn: #7c5300;
}
[data-theme="dark"] {
  color-scheme: dark;
  --ground: #14181b; --raised: #1c2226; --ink: #eceff1; --quiet: #a7b0b7; --line: #3a444b;
  --accent: #7cc4ea; --good: #7fd0a2; --bad: #ff9c8c; --warn: #e8bd6a;
}
@media (prefers-color-scheme: dark) {
  :root:not([data-theme]) {
    color-scheme: dark;
    --ground: #14181b; --raised: #1c2226; --ink: #eceff1; --quiet: #a7b0b7; --line: #3a444b;
    --accent: #7cc4ea; --good: #7fd0a2; --bad: #ff9c8c; --warn: #e8bd6a;
  }
}
`;

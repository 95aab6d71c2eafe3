export type Theme = 'light' | 'dark';

/** What the drawing takes from the page's colours. */
export interface Ground {
  readonly theme: Theme;
  readonly ground: string;
  readonly ink: string;
  readonly quiet: string;
  readonly accent: string;
  readonly good: string;
  readonly bad: string;
}

/** The colours in force at an element, from the page's variables. */
export function groundAt(host: Element): Ground {
  const style = getComputedStyle(host);
  const value = (name: string): string => style.getPropertyValue(name).trim();
  const ground = value('--ground');
  return {
    theme: lightness(ground) < 0.5 ? 'dark' : 'light',
    ground,
    ink: value('--ink'),
    quiet: value('--quiet'),
    accent: value('--accent'),
    good: value('--good'),
    bad: value('--bad'),
  };
}

/** Of a colour written #rrggbb or #rgb, 0 to 1. */
function lightness(colour: string): number {
  const hex = /^#([0-9a-f]{3}|[0-9a-f]{6})$/i.exec(colour)?.[1];
  if (hex === undefined) return 1;
  const pairs = hex.length === 3 ? [...hex].map((c) => c + c) : hex.match(/../g)!;
  const [r, g, b] = pairs.map((p) => Number.parseInt(p, 16) / 255) as [number, number, number];
  return 0.2126 * r + 0.7152 * g + 0.0722 * b;
}

/** Calls when the page turns dark or light, by its own switch or the system's; returns how to stop. */
export function onThemeChange(host: Element, changed: () => void): () => void {
  const system = matchMedia('(prefers-color-scheme: dark)');
  const watcher = new MutationObserver(changed);
  for (const at of [document.documentElement, host]) watcher.observe(at, { attributeFilter: ['data-theme'] });
  system.addEventListener('change', changed);
  return () => {
    system.removeEventListener('change', changed);
    watcher.disconnect();
  };
}

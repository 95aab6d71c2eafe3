const THEMES = ['system', 'light', 'dark'] as const;

type Theme = (typeof THEMES)[number];

const KEY = 'evenrun-theme';

/** The button that goes from the system's choice to light to dark. The choice is kept where the browser lets a page keep one. */
export function themeButton(): void {
  const button = document.querySelector<HTMLButtonElement>('[data-theme-button]');
  if (button === null) return;
  let theme = kept();
  const show = (): void => {
    if (theme === 'system') delete document.documentElement.dataset.theme;
    else document.documentElement.dataset.theme = theme;
    button.textContent = `Light or dark: ${theme}`;
    document.dispatchEvent(new CustomEvent('evenrun-theme'));
  };
  button.hidden = false;
  show();
  button.addEventListener('click', () => {
    theme = THEMES[(THEMES.indexOf(theme) + 1) % THEMES.length]!;
    keep(theme);
    show();
  });
}

function kept(): Theme {
  try {
    return THEMES.find((t) => t === localStorage.getItem(KEY)) ?? 'system';
  } catch {
    return 'system';
  }
}

function keep(theme: Theme): void {
  try {
    localStorage.setItem(KEY, theme);
  } catch {
    // a page that may keep nothing asks again next time
  }
}

/** Print buttons: all, or the patterns alone; what is folded opens for paper and folds again. */
export function printButtons(): void {
  for (const button of document.querySelectorAll<HTMLButtonElement>('[data-print]')) {
    button.hidden = false;
    button.addEventListener('click', () => {
      if (button.dataset.print === 'patterns') document.documentElement.dataset.printing = 'patterns';
      window.print();
    });
  }
  let opened: HTMLDetailsElement[] = [];
  addEventListener('beforeprint', () => {
    opened = [...document.querySelectorAll<HTMLDetailsElement>('main details:not([open])')];
    for (const d of opened) d.open = true;
  });
  addEventListener('afterprint', () => {
    for (const d of opened) d.open = false;
    delete document.documentElement.dataset.printing;
  });
}

/** Puts new content into a place when what it is made from has changed; what had the focus has it again, what was open stays open. */
export function renewer(place: HTMLElement, make: (...of: never[]) => HTMLElement): (...of: unknown[]) => void {
  let last: readonly unknown[] | null = null;
  return (...of) => {
    if (last && of.length === last.length && of.every((v, i) => v === last![i])) return;
    last = of;
    const focused = document.activeElement;
    const name = place.contains(focused) ? nameOf(focused!) : null;
    const isOpen = place.querySelector('details')?.open ?? false;
    place.replaceChildren(make(...(of as never[])));
    const details = place.querySelector('details');
    if (details) details.open = isOpen;
    if (name === null) return;
    const again = [...place.querySelectorAll<HTMLElement>('button, a, summary')].find((e) => nameOf(e) === name);
    again?.focus();
  };
}

const nameOf = (of: Element): string => of.getAttribute('aria-label') ?? of.textContent;

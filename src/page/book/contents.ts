/** Marks in the contents the section that is being read, and keeps its link in sight. */
export function showContents(): void {
  const links = new Map(
    [...document.querySelectorAll<HTMLAnchorElement>('.contents a')].map((a) => [a.hash.slice(1), a] as const),
  );
  const inSight = new Set<string>();
  const show = (): void => {
    const first = [...links.keys()].find((id) => inSight.has(id));
    for (const [id, link] of links) {
      if (id === first) mark(link);
      else link.removeAttribute('aria-current');
    }
  };
  const watcher = new IntersectionObserver(
    (entries) => {
      for (const { target, isIntersecting } of entries) {
        if (isIntersecting) inSight.add(target.id);
        else inSight.delete(target.id);
      }
      show();
    },
    { rootMargin: '-20% 0px -60% 0px' },
  );
  for (const id of links.keys()) {
    const section = document.getElementById(id);
    if (section !== null) watcher.observe(section);
  }
}

/** Scrolls the list alone: the page stays where its reader is. */
function mark(link: HTMLAnchorElement): void {
  if (link.getAttribute('aria-current') === 'true') return;
  link.setAttribute('aria-current', 'true');
  const list = link.closest('nav');
  if (list === null) return;
  const [box, own] = [list.getBoundingClientRect(), link.getBoundingClientRect()];
  if (own.left < box.left || own.right > box.right) list.scrollLeft += own.left - box.left - 40;
  if (own.top < box.top || own.bottom > box.bottom) list.scrollTop += own.top - box.top - 40;
}

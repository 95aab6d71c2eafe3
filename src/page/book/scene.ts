import type { SceneData } from '../../export/book/scene-data.js';
import { mountView, type View } from '../view/view.js';

declare global {
  interface Window {
    evenrun?: { readonly view: View };
  }
}

/** A scene that is laid over the first, with its name. */
interface Overlay {
  readonly label: string;
  readonly scene: SceneData;
}

/** Fills the room of the solid view from the data in the page; where there are others to lay over it, the first of them is. */
export function mountScene(): void {
  const host = document.querySelector<HTMLElement>('[data-view]');
  const scene = dataOf<SceneData>('scene');
  if (host === null || scene === null) return;
  const overlays = dataOf<readonly Overlay[]>('overlay') ?? [];
  const view = mountView(host, scene);
  window.evenrun = { view };
  if (!view.state().draws) showOverviews();
  if (overlays.length > 0) offerOverlays(host, view, overlays);
  markFirstFrame(view);
}

/** Where nothing can be drawn in three dimensions, the views that were drawn for paper stand on the screen too. */
function showOverviews(): void {
  for (const drawn of document.querySelectorAll('.for-paper')) drawn.classList.remove('for-paper');
}

/** Marks on the browser's own clock when the first picture was drawn. */
function markFirstFrame(view: View): void {
  requestAnimationFrame(() => {
    if (view.state().frames > 0) performance.mark('evenrun-drawn');
    else markFirstFrame(view);
  });
}

function dataOf<T>(id: string): T | null {
  const text = document.getElementById(id)?.textContent;
  return text ? (JSON.parse(text) as T) : null;
}

/** A choice above the view of what is laid over it, dashed. */
function offerOverlays(host: HTMLElement, view: View, overlays: readonly Overlay[]): void {
  const choices = document.createElement('p');
  choices.className = 'overlays';
  const label = document.createElement('label');
  label.htmlFor = 'overlay-choice';
  label.textContent = `Over ${host.dataset.view ?? 'A'}, dashed: `;
  const select = document.createElement('select');
  select.id = 'overlay-choice';
  select.append(...overlays.map((o, i) => new Option(o.label, String(i))), new Option('nothing', ''));
  const lay = (): void => {
    const chosen = select.value === '' ? undefined : overlays[Number(select.value)];
    view.setOverlay(chosen?.scene ?? null, chosen?.label);
  };
  select.addEventListener('change', lay);
  choices.append(label, select);
  host.before(choices);
  lay();
}

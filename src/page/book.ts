import type { SceneData } from '../export/book/scene-data.js';
import { mountView, type View } from './view/view.js';

declare global {
  interface Window {
    evenrun?: { readonly view: View };
  }
}

const text = document.getElementById('scene')?.textContent;
const host = document.getElementById('view');
if (text && host) window.evenrun = { view: mountView(host, JSON.parse(text) as SceneData) };

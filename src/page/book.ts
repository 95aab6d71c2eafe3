import type { SceneData } from '../export/book/scene-data.js';

const text = document.getElementById('scene')?.textContent;
if (text) {
  const scene = JSON.parse(text) as SceneData;
  document.title = scene.name;
}

import { type Object3D, type Plane, Raycaster, Vector2 } from 'three';
import type { Triple } from '../../export/book/scene-data.js';
import { type Stage, tripleOf } from './stage.js';

/** What lies under a place of the picture. */
export interface Picked {
  readonly point: Triple;
  /** Id of the tube; null for a solid. */
  readonly tube: string | null;
  readonly title: string;
  /** How far the drawn surface is from the true one at most, mm. */
  readonly error: number;
}

/** The first surface under a place of the picture, in pixels from its top left corner, that is shown and not cut away. */
export function pickAt(
  stage: Stage,
  groups: readonly Object3D[],
  planes: readonly Plane[],
  x: number,
  y: number,
): Picked | null {
  const { clientWidth, clientHeight } = stage.canvas;
  const ray = new Raycaster();
  ray.setFromCamera(new Vector2((2 * x) / clientWidth - 1, 1 - (2 * y) / clientHeight), stage.camera);
  ray.params.Line.threshold = -1;
  const hits = ray.intersectObjects(groups.filter(isShown), true);
  const hit = hits.find(
    (h) =>
      typeof h.object.userData.title === 'string' &&
      isShown(h.object) &&
      planes.every((p) => p.distanceToPoint(h.point) >= 0),
  );
  if (!hit) return null;
  const { tube = null, title, error } = hit.object.userData as Omit<Picked, 'point'>;
  return { point: tripleOf(hit.point), tube, title, error };
}

const isShown = (o: Object3D): boolean => o.visible && (o.parent === null || isShown(o.parent));

/** Calls for a press that did not turn the view: one pointer, down and up at one place. */
export function onPress(canvas: HTMLCanvasElement, act: (x: number, y: number) => void): void {
  let down: { readonly x: number; readonly y: number; readonly id: number } | null = null;
  canvas.addEventListener('pointerdown', (e) => {
    down = down === null && e.button === 0 ? { x: e.clientX, y: e.clientY, id: e.pointerId } : null;
  });
  canvas.addEventListener('pointerup', (e) => {
    const still = down?.id === e.pointerId && Math.hypot(e.clientX - down.x, e.clientY - down.y) < STILL;
    down = null;
    if (!still) return;
    const { left, top } = canvas.getBoundingClientRect();
    act(e.clientX - left, e.clientY - top);
  });
  canvas.addEventListener('pointercancel', () => {
    down = null;
  });
}

/** Movement, pixels, below which a press is a press: fingers tremble. */
const STILL = 6;

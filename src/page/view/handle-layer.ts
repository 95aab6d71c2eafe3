import { Mesh, MeshBasicMaterial, Plane, Raycaster, SphereGeometry, Vector2, Vector3 } from 'three';
import type { Triple } from '../../export/book/scene-data.js';
import type { Handle, HandleMove } from './handle.js';
import type { LabelLayer } from './label-layer.js';
import { type Stage, tripleOf } from './stage.js';

export interface HandleLayer {
  readonly set: (handles: readonly Handle[]) => void;
  readonly paint: (colour: string) => void;
}

/** Radius, pixels, of a handle as it is drawn, and as it is taken hold of: a finger is broad. */
const SIZE = 8;
const REACH = 18;

/** Balls that can be dragged; the view does not turn meanwhile. */
export function createHandleLayer(stage: Stage, labels: LabelLayer, moved: (move: HandleMove) => void): HandleLayer {
  const material = new MeshBasicMaterial({ depthTest: false });
  let balls: { readonly handle: Handle; readonly mesh: Mesh }[] = [];
  let held: (typeof balls)[number] | null = null;
  stage.beforeFrame((pixel) => {
    for (const { mesh } of balls) mesh.scale.setScalar(SIZE * pixel);
  });
  const name = (): void =>
    labels.set(
      'handles',
      balls.map(({ handle, mesh }) => ({ kind: 'mark', text: handle.title, at: tripleOf(mesh.position), below: 20 })),
    );
  const move = (e: PointerEvent, done: boolean): void => {
    if (!held) return;
    const at = draggedTo(stage, held.handle, held.mesh.position, e);
    if (at) held.mesh.position.set(...at);
    name();
    moved({ id: held.handle.id, at: tripleOf(held.mesh.position), done });
  };
  const { canvas, controls } = stage;
  canvas.addEventListener(
    'pointerdown',
    (e) => {
      held = e.button === 0 ? (balls.find(({ mesh }) => isNear(stage, mesh.position, e)) ?? null) : null;
      if (!held) return;
      e.stopImmediatePropagation();
      controls.enabled = false;
      canvas.setPointerCapture(e.pointerId);
    },
    { capture: true },
  );
  canvas.addEventListener('pointermove', (e) => move(e, false));
  for (const end of ['pointerup', 'pointercancel'] as const) {
    canvas.addEventListener(end, (e) => {
      move(e, true);
      held = null;
      controls.enabled = true;
    });
  }
  return {
    set: (handles) => {
      const still = held?.handle.id;
      for (const { mesh } of balls) {
        stage.scene.remove(mesh);
        mesh.geometry.dispose();
      }
      balls = handles.map((handle) => {
        const mesh = new Mesh(new SphereGeometry(1, 20, 12), material);
        mesh.renderOrder = 11;
        // what is held stays under the pointer, whatever comes meanwhile
        mesh.position.set(...(handle.id === still && held ? tripleOf(held.mesh.position) : handle.at));
        stage.scene.add(mesh);
        return { handle, mesh };
      });
      held = balls.find(({ handle }) => handle.id === still) ?? null;
      name();
    },
    paint: (colour) => material.color.set(colour),
  };
}

/** Place of the pointer, -1 to 1 both ways. */
function pointerAt({ canvas }: Stage, e: PointerEvent): Vector2 {
  const { left, top, width, height } = canvas.getBoundingClientRect();
  return new Vector2((2 * (e.clientX - left)) / width - 1, 1 - (2 * (e.clientY - top)) / height);
}

function isNear(stage: Stage, place: Vector3, e: PointerEvent): boolean {
  const seen = place.clone().project(stage.camera);
  const at = pointerAt(stage, e);
  const { clientWidth, clientHeight } = stage.canvas;
  return Math.hypot(((seen.x - at.x) * clientWidth) / 2, ((seen.y - at.y) * clientHeight) / 2) <= REACH;
}

/** The point under the pointer in the plane through where the handle is, or on its line; null where they do not meet. */
function draggedTo(stage: Stage, { along }: Handle, from: Vector3, e: PointerEvent): Triple | null {
  const ray = new Raycaster();
  ray.setFromCamera(pointerAt(stage, e), stage.camera);
  const view = stage.camera.getWorldDirection(new Vector3());
  if (along === undefined) {
    const hit = ray.ray.intersectPlane(new Plane().setFromNormalAndCoplanarPoint(view, from), new Vector3());
    return hit && tripleOf(hit);
  }
  const line = new Vector3(...along);
  const across = view.clone().cross(line).cross(line);
  if (across.lengthSq() < 1e-6) return null;
  const hit = ray.ray.intersectPlane(
    new Plane().setFromNormalAndCoplanarPoint(across.normalize(), from),
    new Vector3(),
  );
  return hit && tripleOf(from.clone().addScaledVector(line, hit.sub(from).dot(line)));
}

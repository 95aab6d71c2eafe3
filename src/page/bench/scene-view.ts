import type { PlanEdit } from '../../export/book/bench-data.js';
import type { SceneData } from '../../export/book/scene-data.js';
import type { HandleMove } from '../view/handle.js';
import { mountView, type View } from '../view/view.js';
import type { PlanHandle } from './plan-handles.js';

/** The solid view of the bench: there as soon as there is a scene. */
export interface SceneView {
  readonly show: (scene: SceneData) => void;
  readonly setHandles: (handles: readonly PlanHandle[]) => void;
  readonly select: (tube: string | null) => void;
  readonly selected: () => string | null;
  readonly showClosest: (tubes: readonly [string, string]) => void;
  /** Null until there is a scene. */
  readonly view: () => View | null;
}

/** What the view tells. */
export interface SceneTold {
  /** Another tube is lit. */
  readonly selected: () => void;
  /** A handle was dragged; `isGoingOn` while it is the same drag. */
  readonly changed: (edit: PlanEdit, isGoingOn: boolean) => void;
}

/** A view in a host, without a scene yet. */
export function sceneView(host: HTMLElement, told: SceneTold): SceneView {
  let view: View | null = null;
  let shown: SceneData | null = null;
  let handles: readonly PlanHandle[] = [];
  let held = '';
  const dragged = ({ id, at, done }: HandleMove): void => {
    const handle = handles.find((h) => h.id === id);
    if (handle) told.changed(handle.edit(at), held === id);
    held = done ? '' : id;
  };
  return {
    show: (scene) => {
      if (scene === shown) return;
      shown = scene;
      if (view) {
        view.setScene(scene);
        return;
      }
      view = mountView(host, scene);
      host.classList.add('is-there');
      view.onSelect(told.selected);
      view.onHandle(dragged);
    },
    setHandles: (next) => {
      const isSame = JSON.stringify(next) === JSON.stringify(handles);
      handles = next;
      if (!isSame) view?.setHandles(handles);
    },
    select: (tube) => view?.select(tube),
    selected: () => view?.state().selected ?? null,
    showClosest: (tubes) => view?.showClosest(tubes),
    view: () => view,
  };
}

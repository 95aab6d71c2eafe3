import type { SceneData } from '../../export/book/scene-data.js';
import type { Controls } from './controls.js';
import { element } from './element.js';
import { cameraControls } from './panel-camera.js';
import { closestControls } from './panel-closest.js';
import { measureControls } from './panel-measure.js';
import { sectionControls } from './panel-section.js';
import { shownControls } from './panel-shown.js';
import { tubeControls } from './panel-tube.js';
import type { View, ViewState } from './view-contract.js';

export interface Panel {
  readonly node: HTMLElement;
  readonly scene: (scene: SceneData) => void;
  readonly state: (state: ViewState) => void;
}

/** All controls of a view, each labelled and within reach of the keys. */
export function createPanel(view: View): Panel {
  const parts: readonly Controls[] = [
    cameraControls(view),
    tubeControls(view),
    shownControls(view),
    closestControls(view),
    measureControls(view),
    sectionControls(view),
  ];
  const node = element('div', { class: 'ev-panel', role: 'group', 'aria-label': 'Controls of the view' });
  node.append(...parts.map((p) => p.node));
  return {
    node,
    scene: (scene) => {
      for (const p of parts) p.scene?.(scene);
    },
    state: (state) => {
      for (const p of parts) p.state?.(state);
    },
  };
}

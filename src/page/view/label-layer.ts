import { type Plane, Vector3 } from 'three';
import type { Triple } from '../../export/book/scene-data.js';
import { element } from './element.js';
import type { Stage } from './stage.js';

/** A few words beside a place of the drawing. */
export interface Label {
  readonly text: string;
  readonly at: Triple;
  /** 'tube', 'piece', 'joint', 'mark': how it looks, and which give way where two meet, the later ones first. */
  readonly kind: 'mark' | 'tube' | 'piece' | 'joint';
  readonly colour?: string | undefined;
  /** How far it stands below its place, pixels. */
  readonly below?: number | undefined;
}

const RANK: readonly Label['kind'][] = ['mark', 'tube', 'piece', 'joint'];

export interface LabelLayer {
  readonly set: (group: string, labels: readonly Label[]) => void;
  readonly show: (visible: boolean) => void;
  /** What is cut away bears no label. */
  readonly clip: (planes: readonly Plane[]) => void;
}

/** Labels as text over the picture: they are for the eye, the panel says the same in words. */
export function createLabelLayer(stage: Stage, host: HTMLElement): LabelLayer {
  const layer = element('div', { class: 'ev-labels', 'aria-hidden': 'true' });
  host.append(layer);
  const groups = new Map<string, readonly (Label & { readonly node: HTMLElement })[]>();
  let planes: readonly Plane[] = [];
  const lay = (): void => {
    const all = [...groups.values()].flat();
    all.sort((a, b) => RANK.indexOf(a.kind) - RANK.indexOf(b.kind));
    const taken: Box[] = [];
    const { clientWidth, clientHeight } = stage.canvas;
    for (const { at, node, below = 0 } of all) {
      const place = new Vector3(...at);
      const kept = planes.every((plane) => plane.distanceToPoint(place) >= 0);
      const p = place.project(stage.camera);
      const x = ((p.x + 1) / 2) * clientWidth;
      const y = ((1 - p.y) / 2) * clientHeight + below;
      const box = { x, y, w: node.offsetWidth / 2 + 2, h: node.offsetHeight / 2 + 1 };
      const free = kept && !taken.some((t) => Math.abs(t.x - x) < t.w + box.w && Math.abs(t.y - y) < t.h + box.h);
      if (free) taken.push(box);
      node.style.visibility = free ? 'visible' : 'hidden';
      node.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px) translate(-50%, -50%)`;
    }
  };
  if (stage.draws) stage.afterFrame(lay);
  return {
    set: (group, labels) => {
      for (const { node } of groups.get(group) ?? []) node.remove();
      const made = labels.map((l) => {
        const node = element('span', { class: `ev-label ev-label-${l.kind}` }, l.text);
        if (l.colour) node.style.setProperty('--mark', l.colour);
        layer.append(node);
        return { ...l, node };
      });
      groups.set(group, made);
      stage.invalidate();
    },
    clip: (given) => {
      planes = given;
    },
    show: (visible) => {
      layer.hidden = !visible || !stage.draws;
    },
  };
}

interface Box {
  readonly x: number;
  readonly y: number;
  /** Half the width and height. */
  readonly w: number;
  readonly h: number;
}

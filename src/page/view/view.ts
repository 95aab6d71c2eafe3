import { Box3, Plane, Vector3 } from 'three';
import type { SceneData, SceneTube, Triple } from '../../export/book/scene-data.js';
import { distance } from '../../geometry/vec3.js';
import { type ClosestPlace, closestPlaces } from './closest.js';
import { element } from './element.js';
import { listenToKeys, zoomBy } from './keys.js';
import { createLabelLayer } from './label-layer.js';
import { createMarkLayer, type Ring } from './mark-layer.js';
import { KINDS, type ShownKind } from './palette.js';
import { createPanel } from './panel.js';
import { onPress, type Picked, pickAt } from './pick.js';
import { shownLength } from './shown-number.js';
import { onTrueSkin } from './skin-point.js';
import { createSolidLayer } from './solid-layer.js';
import { type CameraPlace, createStage, type Look } from './stage.js';
import { groundAt, onThemeChange, type Theme } from './theme.js';
import { createTubeLayer, tubeNames } from './tube-layer.js';
import { pathOf, stationAt } from './tube-path.js';
import { placeAlong, sectionAt, type TubePlace } from './tube-place.js';
import { addViewStyle } from './view-style.js';

/** Cuts the picture open along a plane square to an axis of the world: what lies beyond `offset` mm is taken away, or what lies before it. */
export interface Section {
  readonly axis: 'x' | 'y' | 'z';
  readonly offset: number;
  readonly keep: 'below' | 'above';
}

/** Two places and the straight between them, mm. */
export interface Measurement {
  readonly from: Triple;
  readonly to: Triple;
  readonly distance: number;
  /** How far it may be off, mm: where drawn facets stand for curved surfaces. */
  readonly within: number;
}

/** What the view shows, as plain values. */
export interface ViewState {
  /** False where the browser offers no WebGL. */
  readonly draws: boolean;
  readonly selected: string | null;
  /** The slider's place on the selected tube. */
  readonly place: TubePlace | null;
  readonly shown: Readonly<Record<ShownKind, boolean>>;
  readonly section: Section | null;
  readonly measuring: boolean;
  readonly measurement: Measurement | null;
  readonly closest: ClosestPlace | null;
  readonly overlay: string | null;
  readonly camera: CameraPlace;
  readonly triangles: number;
  readonly frames: number;
}

export interface ViewOptions {
  /** Tube selected at first. */
  readonly select?: string;
  /** Name of the first scene where a second one is laid over it. */
  readonly name?: string;
}

/** A scene in a host element, with its panel. */
export interface View {
  /** Shows another scene from the same place, the same tube selected if it is still there. */
  readonly setScene: (scene: SceneData) => void;
  /** Lays the tubes of a second scene over the first, dashed; null takes them away. */
  readonly setOverlay: (scene: SceneData | null, name?: string) => void;
  readonly select: (tube: string | null) => void;
  /** Tells when another tube is selected; returns how to stop. */
  readonly onSelect: (told: (tube: string | null) => void) => () => void;
  /** Moves the slider along the selected tube, mm. */
  readonly setSlider: (run: number) => void;
  readonly show: (kind: ShownKind, visible: boolean) => void;
  readonly setSection: (section: Section | null) => void;
  /** Next two presses on surfaces are measured. */
  readonly setMeasuring: (on: boolean) => void;
  readonly measure: (from: Triple, to: Triple, within?: number) => void;
  readonly clearMeasurement: () => void;
  /** The closest place of two tubes, the one of that number where there are several; null hides it. */
  readonly showClosest: (pair: readonly [string, string] | null, number?: number) => void;
  /** Null follows the page. */
  readonly setTheme: (theme: Theme | null) => void;
  readonly look: (look: Look) => void;
  readonly fit: () => void;
  readonly zoom: (factor: number) => void;
  readonly setCamera: (place: CameraPlace) => void;
  readonly state: () => ViewState;
  readonly dispose: () => void;
}

/** Mounts a view of a scene into an element: the picture, its panel and the keys. */
export function mountView(host: HTMLElement, first: SceneData, options: ViewOptions = {}): View {
  addViewStyle();
  const canvas = element('canvas', {
    class: 'ev-canvas',
    tabindex: 0,
    role: 'img',
    'aria-label': 'The header in three dimensions. Arrow keys turn it, plus and minus zoom, Home shows all.',
  });
  const frame = element('div', { class: 'ev-stage' }, canvas);
  const body = element('div', { class: 'ev-body' }, frame);
  const root = element('div', { class: 'ev-view' }, body);
  host.append(root);
  const stage = createStage(canvas);
  if (!stage.draws) {
    canvas.hidden = true;
    frame.append(element('p', { class: 'ev-no-webgl', role: 'status' }, NO_WEBGL));
  }
  const solids = createSolidLayer();
  const tubes = createTubeLayer();
  const over = createTubeLayer(true);
  stage.scene.add(solids.group, tubes.group, over.group);
  const labels = createLabelLayer(stage, frame);
  const marks = createMarkLayer(stage);
  const listeners = new Set<(tube: string | null) => void>();

  let scene = first;
  let selected: SceneTube | null = null;
  let run = 0;
  let section: Section | null = null;
  let planes: Plane[] = [];
  let measuring = false;
  let begun: Picked | null = null;
  let measurement: Measurement | null = null;
  let closest: ClosestPlace | null = null;
  let pair: readonly [string, string] | null = null;
  let overlay: { readonly scene: SceneData; readonly name: string } | null = null;
  let ground = groundAt(root);
  const shown = Object.fromEntries(KINDS.map((k) => [k.kind, k.shown])) as Record<ShownKind, boolean>;

  const bounds = (): Box3 => {
    const box = new Box3().expandByObject(tubes.group);
    return box.isEmpty() ? new Box3(new Vector3(-1, -1, -1), new Vector3(1, 1, 1)) : box;
  };
  const paint = (): void => {
    ground = groundAt(root);
    for (const layer of [solids, tubes, over]) layer.paint(ground);
    markTube();
    markMeasurement();
    markClosest();
    stage.invalidate();
  };
  const markTube = (): void => {
    const path = selected && pathOf(selected);
    const ringAt = (at: number): Ring => {
      const { point, direction } = stationAt(path!, at);
      return { at: point, axis: direction, radius: sectionAt(selected!, at).od / 2 };
    };
    marks.rings('joints', selected ? selected.joints.map((j) => ringAt(j.at)) : [], ground.ink);
    marks.rings('slider', selected ? [ringAt(run)] : [], ground.accent);
    labels.set('pieces', selected ? piecesOf(selected) : []);
    labels.set(
      'slider',
      selected ? [{ kind: 'mark', text: shownLength(run, 'mm'), at: besideTube(selected, run) }] : [],
    );
  };
  const markMeasurement = (): void => {
    const spans = measurement ? [measurement] : begun ? [{ from: begun.point, to: begun.point }] : [];
    marks.spans('measure', spans, ground.accent);
    labels.set('measure', measurement ? [spanLabel(measurement, measurement.distance)] : []);
  };
  const markClosest = (): void => {
    const short = closest !== null && closest.limit !== null && closest.value < closest.limit;
    marks.spans('closest', closest ? [closest] : [], short ? ground.bad : ground.ink);
    labels.set('closest', closest ? [spanLabel(closest, closest.value)] : []);
  };
  const nameTubes = (): void => {
    labels.set('tubes', tubeNames(scene));
    labels.set('overlay', overlay ? tubeNames(overlay.scene, ` ${overlay.name}`) : []);
  };
  const clip = (): void => {
    planes = section ? [planeOf(section)] : [];
    for (const layer of [solids, tubes, over]) layer.clip(planes);
    stage.invalidate();
  };

  const view: View = {
    setScene: (next) => {
      scene = next;
      solids.set(scene);
      tubes.set(scene.tubes);
      const again = scene.tubes.find((t) => t.id === selected?.id) ?? null;
      if (again === null && selected !== null) view.select(null);
      selected = again;
      run = Math.min(run, selected?.length ?? 0);
      measurement = null;
      begun = null;
      if (pair && scene.tubes.filter((t) => pair?.includes(t.id)).length < 2) pair = null;
      closest = pair ? (closestPlaces(scene, ...pair)[0] ?? null) : null;
      nameTubes();
      clip();
      paint();
      panel.scene(scene);
      panel.state(view.state());
    },
    setOverlay: (second, name = 'B') => {
      overlay = second && { scene: second, name };
      over.set(second?.tubes ?? []);
      over.paint(ground);
      over.clip(planes);
      nameTubes();
      stage.invalidate();
      panel.state(view.state());
    },
    select: (id) => {
      const next = scene.tubes.find((t) => t.id === id) ?? null;
      const changed = next?.id !== selected?.id;
      selected = next;
      if (changed) run = 0;
      tubes.select(selected?.id ?? null);
      markTube();
      stage.invalidate();
      if (changed) for (const told of listeners) told(selected?.id ?? null);
      panel.state(view.state());
    },
    onSelect: (told) => {
      listeners.add(told);
      return () => listeners.delete(told);
    },
    setSlider: (at) => {
      if (!selected) return;
      run = Math.min(selected.length, Math.max(0, at));
      markTube();
      panel.state(view.state());
    },
    show: (kind, visible) => {
      shown[kind] = visible;
      if (kind === 'tube') {
        tubes.group.visible = visible;
        over.group.visible = visible;
      } else if (kind === 'label') labels.show(visible);
      else solids.show(kind, visible);
      stage.invalidate();
      panel.state(view.state());
    },
    setSection: (next) => {
      section = next;
      clip();
      panel.state(view.state());
    },
    setMeasuring: (on) => {
      measuring = on;
      begun = null;
      markMeasurement();
      canvas.classList.toggle('ev-measuring', on);
      panel.state(view.state());
    },
    measure: (from, to, within = 0) => {
      measurement = { from, to, distance: distance(from, to), within };
      begun = null;
      markMeasurement();
      panel.state(view.state());
    },
    clearMeasurement: () => {
      measurement = null;
      begun = null;
      markMeasurement();
      panel.state(view.state());
    },
    showClosest: (of, number = 0) => {
      pair = of;
      closest = of ? (closestPlaces(scene, ...of)[number] ?? null) : null;
      markClosest();
      panel.state(view.state());
    },
    setTheme: (theme) => {
      if (theme === null) delete root.dataset.theme;
      else root.dataset.theme = theme;
      paint();
    },
    look: (look) => stage.look(look, bounds()),
    fit: () => stage.fit(bounds()),
    zoom: (factor) => zoomBy(stage, factor),
    setCamera: stage.setPlace,
    state: () => ({
      draws: stage.draws,
      selected: selected?.id ?? null,
      place: selected && placeAlong(selected, run),
      shown: { ...shown },
      section,
      measuring,
      measurement,
      closest,
      overlay: overlay?.name ?? null,
      camera: stage.place(),
      ...stage.drawn(),
    }),
    dispose: () => {
      stopTheme();
      stage.dispose();
      root.remove();
    },
  };

  const press = (x: number, y: number): void => {
    const picked = pickAt(stage, [tubes.group, solids.group], planes, x, y);
    if (!measuring) {
      view.select(picked?.tube ?? null);
      return;
    }
    if (!picked) return;
    const tube = scene.tubes.find((t) => t.id === picked.tube);
    // a tube is known exactly: what was picked on its facets is put on its skin
    const exact = tube ? { ...picked, point: onTrueSkin(tube, picked.point, 1), error: 0 } : picked;
    if (begun) view.measure(begun.point, exact.point, begun.error + exact.error);
    else {
      begun = exact;
      measurement = null;
      markMeasurement();
      panel.state(view.state());
    }
  };
  onPress(canvas, press);
  listenToKeys(stage, {
    home: () => view.fit(),
    escape: () => {
      if (begun || measuring) view.setMeasuring(false);
      else view.select(null);
    },
  });
  const stopTheme = onThemeChange(root, paint);
  const panel = createPanel(view);
  body.append(panel.node);
  view.setScene(first);
  view.look('angled');
  if (options.select) view.select(options.select);
  return view;
}

const NO_WEBGL =
  'The picture in three dimensions needs WebGL, which this browser does not offer here. The figures beside it work without.';

const planeOf = ({ axis, offset, keep }: Section): Plane => {
  const sign = keep === 'below' ? -1 : 1;
  const normal = new Vector3(axis === 'x' ? sign : 0, axis === 'y' ? sign : 0, axis === 'z' ? sign : 0);
  return new Plane(normal, -sign * offset);
};

const spanLabel = ({ from, to }: { readonly from: Triple; readonly to: Triple }, value: number) => ({
  kind: 'mark' as const,
  text: shownLength(value, 'mm', 2),
  at: [0, 1, 2].map((k) => (from[k]! + to[k]!) / 2) as unknown as Triple,
});

/** A place on the tube's skin where a word can stand. */
function besideTube(tube: SceneTube, run: number): Triple {
  const { point, outerRadius } = placeAlong(tube, run);
  return [point[0], point[1] + outerRadius + 6, point[2]];
}

const piecesOf = (tube: SceneTube) => [
  ...tube.pieces.map((p) => ({
    kind: 'piece' as const,
    text: p.name,
    at: stationAt(pathOf(tube), (p.from + p.to) / 2).point,
  })),
  ...tube.joints.map((j) => ({ kind: 'joint' as const, text: j.name, at: besideTube(tube, j.at) })),
];

import type { SceneData } from '../../export/book/scene-data.js';
import { distance } from '../../geometry/vec3.js';
import { closestPlaces } from './closest.js';
import { element } from './element.js';
import type { HandleMove } from './handle.js';
import { listenToKeys, zoomBy } from './keys.js';
import { KINDS, type ShownKind } from './palette.js';
import { createPanel } from './panel.js';
import { onPress, type Picked } from './pick.js';
import { createPicture, type Picture, type Shown } from './picture.js';
import { onTrueSkin } from './skin-point.js';
import { onThemeChange } from './theme.js';
import { placeAlong } from './tube-place.js';
import type { View, ViewOptions, ViewState } from './view-contract.js';
import { addViewStyle } from './view-style.js';

export type { Handle, HandleMove } from './handle.js';
export type { Measurement, Section, View, ViewOptions, ViewState } from './view-contract.js';

/** What the view knows at a moment. */
interface Now extends Shown {
  readonly measuring: boolean;
  readonly pair: readonly [string, string] | null;
}

/** Mounts a view of a scene into an element: the picture, its panel and the keys. */
export function mountView(host: HTMLElement, scene: SceneData, options: ViewOptions = {}): View {
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
  const selections = new Set<(tube: string | null) => void>();
  const drags = new Set<(move: HandleMove) => void>();
  const picture = createPicture(canvas, frame, (move) => {
    for (const told of drags) told(move);
  });
  if (!picture.stage.draws) sayNoWebgl(canvas, frame);

  let now = firstOf(scene, options.name ?? 'A');
  const change = (part: Partial<Now>): void => {
    const before = now;
    now = { ...now, ...part };
    picture.draw(now, before);
    if (now.scene !== before.scene) panel.scene(now.scene);
    panel.state(stateOf(now, picture));
    if (now.selected?.id !== before.selected?.id) for (const told of selections) told(now.selected?.id ?? null);
  };
  const view: View = {
    ...actionsOn(() => now, change, picture),
    onSelect: (told) => {
      selections.add(told);
      return () => selections.delete(told);
    },
    onHandle: (told) => {
      drags.add(told);
      return () => drags.delete(told);
    },
    setTheme: (theme) => {
      if (theme === null) delete root.dataset.theme;
      else root.dataset.theme = theme;
      picture.paint(now);
    },
    dispose: () => {
      stopTheme();
      picture.stage.dispose();
      root.remove();
    },
  };
  const panel = createPanel(view);
  body.append(panel.node);
  const stopTheme = onThemeChange(root, () => picture.paint(now));
  onPress(canvas, (x, y) => press(now, picture.pick(x, y), view, change));
  listenToKeys(picture.stage, {
    home: view.fit,
    escape: () => (now.measuring ? view.setMeasuring(false) : view.select(null)),
  });
  picture.draw(now, null);
  picture.paint(now);
  panel.scene(scene);
  panel.state(view.state());
  view.look('angled');
  if (options.select) view.select(options.select);
  return view;
}

const firstOf = (scene: SceneData, name: string): Now => ({
  scene,
  name,
  overlay: null,
  selected: null,
  run: 0,
  kinds: Object.fromEntries(KINDS.map((k) => [k.kind, k.shown])) as Record<ShownKind, boolean>,
  section: null,
  measuring: false,
  begun: null,
  measurement: null,
  pair: null,
  closest: null,
});

type Actions = Omit<View, 'onSelect' | 'onHandle' | 'setTheme' | 'dispose'>;

/** What can be done to a view, each as a change of what it knows. */
function actionsOn(now: () => Now, change: (part: Partial<Now>) => void, picture: Picture): Actions {
  const { stage, seen, handles } = picture;
  return {
    setScene: (scene) => change(afterScene(now(), scene)),
    setOverlay: (scene, name = 'B') => change({ overlay: scene && { scene, name } }),
    select: (id) => {
      const selected = now().scene.tubes.find((t) => t.id === id) ?? null;
      if (selected !== now().selected) change({ selected, run: 0 });
    },
    setSlider: (run) => {
      const { selected } = now();
      if (selected) change({ run: Math.min(selected.length, Math.max(0, run)) });
    },
    show: (kind, visible) => change({ kinds: { ...now().kinds, [kind]: visible } }),
    setSection: (section) => change({ section }),
    setMeasuring: (measuring) => change({ measuring, begun: null }),
    measure: (from, to, within = 0) =>
      change({ begun: null, measurement: { from, to, distance: distance(from, to), within } }),
    clearMeasurement: () => change({ begun: null, measurement: null }),
    showClosest: (pair, number = 0) =>
      change({ pair, closest: pair && (closestPlaces(now().scene, ...pair)[number] ?? null) }),
    setHandles: handles.set,
    look: (look) => stage.look(look, seen()),
    fit: () => stage.fitTo(seen()),
    zoom: (factor) => zoomBy(stage, factor),
    setCamera: stage.setPlace,
    state: () => stateOf(now(), picture),
  };
}

/** Another scene: what is selected and shown of the one before is looked for in it, what was measured is gone. */
function afterScene({ selected, run, pair }: Now, scene: SceneData): Partial<Now> {
  const again = scene.tubes.find((t) => t.id === selected?.id) ?? null;
  return {
    scene,
    selected: again,
    run: Math.min(run, again?.length ?? 0),
    begun: null,
    measurement: null,
    closest: pair && (closestPlaces(scene, ...pair)[0] ?? null),
  };
}

/** A press on the picture: a tube is selected, or a point is taken to measure from or to. */
function press(now: Now, picked: Picked | null, view: View, change: (part: Partial<Now>) => void): void {
  if (!now.measuring) {
    view.select(picked?.tube ?? null);
    return;
  }
  if (!picked) return;
  const tube = now.scene.tubes.find((t) => t.id === picked.tube);
  // a tube is known exactly: what was picked on its facets is put on its skin
  const exact = tube ? { ...picked, point: onTrueSkin(tube, picked.point, 1), error: 0 } : picked;
  if (now.begun) view.measure(now.begun.point, exact.point, now.begun.error + exact.error);
  else change({ begun: exact, measurement: null });
}

const stateOf = (now: Now, { stage }: Picture): ViewState => ({
  draws: stage.draws,
  selected: now.selected?.id ?? null,
  place: now.selected && placeAlong(now.selected, now.run),
  shown: now.kinds,
  section: now.section,
  measuring: now.measuring,
  begun: now.begun?.point ?? null,
  measurement: now.measurement,
  pair: now.pair,
  closest: now.closest,
  overlay: now.overlay?.name ?? null,
  camera: stage.place(),
  ...stage.drawn(),
});

const NO_WEBGL =
  'The picture in three dimensions needs WebGL, which this browser does not offer here. The figures beside it work without.';

function sayNoWebgl(canvas: HTMLCanvasElement, frame: HTMLElement): void {
  canvas.hidden = true;
  frame.append(element('p', { class: 'ev-no-webgl', role: 'status' }, NO_WEBGL));
}

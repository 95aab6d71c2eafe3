import { type Plane, Plane as ScenePlane, Vector3 } from 'three';
import type { SceneData, SceneTube, Triple } from '../../export/book/scene-data.js';
import type { ClosestPlace } from './closest.js';
import type { HandleMove } from './handle.js';
import { createHandleLayer, type HandleLayer } from './handle-layer.js';
import { createLabelLayer, type Label } from './label-layer.js';
import { createMarkLayer, type Ring } from './mark-layer.js';
import { KINDS, type ShownKind } from './palette.js';
import { type Picked, pickAt } from './pick.js';
import { shownLength } from './shown-number.js';
import { createSolidLayer, placesOf } from './solid-layer.js';
import { createStage, type Seen, type Stage } from './stage.js';
import { groundAt } from './theme.js';
import { createTubeLayer, overlaidNames, tubeNames } from './tube-layer.js';
import { pathOf, stationAt } from './tube-path.js';
import { placeAlong, sectionAt } from './tube-place.js';
import type { Measurement, Section } from './view-contract.js';

/** Everything the picture depends on but the camera. */
export interface Shown {
  readonly scene: SceneData;
  /** What the scene is called beside another. */
  readonly name: string;
  readonly overlay: { readonly scene: SceneData; readonly name: string } | null;
  readonly selected: SceneTube | null;
  readonly run: number;
  readonly kinds: Readonly<Record<ShownKind, boolean>>;
  readonly section: Section | null;
  /** First point of a measurement begun. */
  readonly begun: Picked | null;
  readonly measurement: Measurement | null;
  readonly closest: ClosestPlace | null;
}

export interface Picture {
  readonly stage: Stage;
  readonly handles: HandleLayer;
  /** Brings the picture from one state to the next: only what differs is made anew. */
  readonly draw: (now: Shown, before: Shown | null) => void;
  /** Takes up the page's colours. */
  readonly paint: (now: Shown) => void;
  readonly pick: (x: number, y: number) => Picked | null;
  /** What is to be in view: the tubes with flange and collectors. */
  readonly seen: () => Seen;
}

/** The picture on a canvas, with its labels over it. */
export function createPicture(
  canvas: HTMLCanvasElement,
  frame: HTMLElement,
  dragged: (move: HandleMove) => void,
): Picture {
  const stage = createStage(canvas);
  const solids = createSolidLayer();
  const tubes = createTubeLayer();
  const over = createTubeLayer(true);
  stage.scene.add(solids.group, tubes.group, over.group);
  const labels = createLabelLayer(stage, frame);
  const marks = createMarkLayer(stage);
  const handles = createHandleLayer(stage, labels, dragged);
  let ground = groundAt(frame);
  let planes: readonly Plane[] = [];

  const markTube = ({ selected: tube, run }: Shown): void => {
    marks.rings('joints', tube ? tube.joints.map((j) => ringAt(tube, j.at)) : [], ground.ink);
    marks.rings('slider', tube ? [ringAt(tube, run)] : [], ground.accent);
    labels.set('pieces', tube ? piecesOf(tube) : []);
    labels.set('slider', tube ? [{ kind: 'mark', text: shownLength(run, 'mm'), at: besideTube(tube, run) }] : []);
  };
  const markMeasurement = ({ measurement, begun }: Shown): void => {
    const spans = measurement ? [measurement] : begun ? [{ from: begun.point, to: begun.point }] : [];
    marks.spans('measure', spans, ground.accent);
    labels.set('measure', measurement ? [spanLabel(measurement, measurement.distance)] : []);
  };
  const markClosest = ({ closest }: Shown): void => {
    const short = closest !== null && closest.limit !== null && closest.value < closest.limit - 0.01;
    marks.spans('closest', closest ? [closest] : [], short ? ground.bad : ground.ink);
    labels.set('closest', closest ? [spanLabel(closest, closest.value)] : []);
  };
  const show = (kind: ShownKind, visible: boolean): void => {
    if (kind === 'tube') {
      tubes.group.visible = visible;
      over.group.visible = visible;
    } else if (kind === 'label') labels.show(visible);
    else solids.show(kind, visible);
  };
  const clip = (section: Section | null): void => {
    planes = section ? [planeOf(section)] : [];
    for (const layer of [solids, tubes, over, labels]) layer.clip(planes);
  };
  const paint = (now: Shown): void => {
    ground = groundAt(frame);
    for (const layer of [solids, tubes, over]) layer.paint(ground);
    handles.paint(ground.accent);
    markTube(now);
    markMeasurement(now);
    markClosest(now);
    stage.invalidate();
  };
  const draw = (now: Shown, before: Shown | null): void => {
    const differs = (...fields: (keyof Shown)[]): boolean => fields.some((f) => now[f] !== before?.[f]);
    if (differs('scene')) {
      solids.set(now.scene);
      tubes.set(now.scene.tubes);
    }
    if (differs('overlay')) {
      over.set(now.overlay?.scene.tubes ?? []);
      labels.set('overlay', now.overlay ? overlaidNames(now.overlay.scene, now.overlay.name) : []);
    }
    if (differs('scene', 'overlay')) labels.set('tubes', tubeNames(now.scene, now.overlay ? now.name : ''));
    if (differs('kinds')) for (const { kind } of KINDS) show(kind, now.kinds[kind]);
    if (differs('section')) clip(now.section);
    if (differs('selected')) tubes.select(now.selected?.id ?? null);
    if (differs('selected', 'run')) markTube(now);
    if (differs('begun', 'measurement')) markMeasurement(now);
    if (differs('closest')) markClosest(now);
    stage.invalidate();
  };
  return {
    stage,
    handles,
    draw,
    paint,
    pick: (x, y) => pickAt(stage, [tubes.group, solids.group], planes, x, y),
    seen: () => [...placesOf(tubes.group), ...solids.places(['flange', 'collector', 'plate'])],
  };
}

function planeOf({ axis, offset, keep }: Section): ScenePlane {
  const sign = keep === 'below' ? -1 : 1;
  const normal = new Vector3(axis === 'x' ? sign : 0, axis === 'y' ? sign : 0, axis === 'z' ? sign : 0);
  return new ScenePlane(normal, -sign * offset);
}

function ringAt(tube: SceneTube, run: number): Ring {
  const { point, direction } = stationAt(pathOf(tube), run);
  return { at: point, axis: direction, radius: sectionAt(tube, run).od / 2 };
}

const spanLabel = ({ from, to }: { readonly from: Triple; readonly to: Triple }, value: number): Label => ({
  kind: 'mark',
  text: shownLength(value, 'mm', 2),
  at: [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2, (from[2] + to[2]) / 2],
  below: 18,
});

/** A place over the tube where a word can stand. */
function besideTube(tube: SceneTube, run: number): Triple {
  const { point, outerRadius } = placeAlong(tube, run);
  return [point[0], point[1] + outerRadius + 6, point[2]];
}

const piecesOf = (tube: SceneTube): Label[] => [
  ...tube.pieces.map((p): Label => ({ kind: 'piece', text: p.name, at: middleOf(tube, (p.from + p.to) / 2) })),
  ...tube.joints.map((j): Label => ({ kind: 'joint', text: j.name, at: besideTube(tube, j.at) })),
];

const middleOf = (tube: SceneTube, run: number): Triple => stationAt(pathOf(tube), run).point;

import type { SceneData, Triple } from '../../export/book/scene-data.js';
import type { ClosestPlace } from './closest.js';
import type { Handle, HandleMove } from './handle.js';
import type { ShownKind } from './palette.js';
import type { CameraPlace, Look } from './stage.js';
import type { Theme } from './theme.js';
import type { TubePlace } from './tube-place.js';

/** Cuts the picture open along a plane square to an axis of the world: kept is what lies below the offset, mm, or above. */
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
  /** The first point of a measurement begun. */
  readonly begun: Triple | null;
  readonly measurement: Measurement | null;
  /** The two tubes whose closest place is shown, and that place. */
  readonly pair: readonly [string, string] | null;
  readonly closest: ClosestPlace | null;
  /** Name of the scene laid over the first. */
  readonly overlay: string | null;
  readonly camera: CameraPlace;
  /** Of the last picture, and how many pictures were drawn. */
  readonly triangles: number;
  readonly frames: number;
}

export interface ViewOptions {
  /** Tube selected at first. */
  readonly select?: string;
  /** Name of the first scene, borne by its tubes while another is laid over it. */
  readonly name?: string;
}

/** A scene in a host element, with its panel. */
export interface View {
  /** Shows another scene from the same place, the same tube selected and the same pair shown where they are still there. */
  readonly setScene: (scene: SceneData) => void;
  /** Lays the tubes of a second scene over the first, dashed and named; null takes them away. */
  readonly setOverlay: (scene: SceneData | null, name?: string) => void;
  readonly select: (tube: string | null) => void;
  /** Tells when another tube is selected; returns how to stop. */
  readonly onSelect: (told: (tube: string | null) => void) => () => void;
  /** Moves the slider along the selected tube, mm. */
  readonly setSlider: (run: number) => void;
  readonly show: (kind: ShownKind, visible: boolean) => void;
  readonly setSection: (section: Section | null) => void;
  /** On: the next two presses on surfaces are measured. */
  readonly setMeasuring: (on: boolean) => void;
  readonly measure: (from: Triple, to: Triple, within?: number) => void;
  readonly clearMeasurement: () => void;
  /** The closest place of two tubes, the one of that number where there are several; null hides it. */
  readonly showClosest: (pair: readonly [string, string] | null, number?: number) => void;
  /** Places to take hold of and drag. */
  readonly setHandles: (handles: readonly Handle[]) => void;
  /** Tells where a handle is dragged to, and where it is let go; returns how to stop. */
  readonly onHandle: (told: (move: HandleMove) => void) => () => void;
  /** Null follows the page. */
  readonly setTheme: (theme: Theme | null) => void;
  readonly look: (look: Look) => void;
  readonly fit: () => void;
  readonly zoom: (factor: number) => void;
  readonly setCamera: (place: CameraPlace) => void;
  readonly state: () => ViewState;
  readonly dispose: () => void;
}

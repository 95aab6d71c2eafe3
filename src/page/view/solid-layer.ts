import {
  BufferAttribute,
  BufferGeometry,
  Color,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  type Plane,
} from 'three';
import { unpackMesh } from '../../export/book/packed-mesh.js';
import type { SceneData, SceneKind, SceneSolid } from '../../export/book/scene-data.js';
import { creased } from './creases.js';
import { lookOf } from './palette.js';
import { cutBy, plainSurface, type Surface } from './skin-material.js';
import type { Seen } from './stage.js';
import type { Ground } from './theme.js';

export interface SolidLayer {
  readonly group: Group;
  readonly set: (scene: SceneData) => void;
  readonly show: (kind: SceneKind, visible: boolean) => void;
  readonly paint: (ground: Ground) => void;
  readonly clip: (planes: readonly Plane[]) => void;
  /** Coordinates of those of some kinds that are shown. */
  readonly places: (of: readonly SceneKind[]) => Seen;
}

/** Faces that turn by less than this, rad, are one rounded face. */
const CREASE = 0.6;

interface Dressed {
  readonly kind: SceneKind;
  readonly surface: Surface;
  readonly lines: LineBasicMaterial;
}

/** Solids of a scene, each kind in a group of its own; a kind is unpacked when it is first shown. */
export function createSolidLayer(): SolidLayer {
  const group = new Group();
  const kinds = new Map<SceneKind, { readonly group: Group; readonly dress: Dressed; waiting: SceneSolid[] }>();
  let painted: Ground | null = null;
  let planes: readonly Plane[] = [];
  const kindOf = (kind: SceneKind) => {
    const known = kinds.get(kind);
    if (known) return known;
    const made = { group: new Group(), dress: dressOf(kind), waiting: [] };
    made.group.visible = lookOf(kind).shown;
    kinds.set(kind, made);
    group.add(made.group);
    if (painted) paintKind(made.dress, painted);
    clipKind(made.dress, planes);
    return made;
  };
  const unpackShown = (): void => {
    for (const k of kinds.values()) {
      if (!k.group.visible) continue;
      for (const solid of k.waiting.splice(0)) k.group.add(...drawnSolid(solid, k.dress));
    }
  };
  return {
    group,
    set: (scene) => {
      for (const k of kinds.values()) {
        freeGroup(k.group);
        k.waiting = [];
      }
      for (const solid of scene.solids) kindOf(solid.kind).waiting.push(solid);
      unpackShown();
    },
    show: (kind, visible) => {
      kindOf(kind).group.visible = visible;
      unpackShown();
    },
    paint: (ground) => {
      painted = ground;
      for (const k of kinds.values()) paintKind(k.dress, ground);
    },
    clip: (given) => {
      planes = given;
      for (const k of kinds.values()) clipKind(k.dress, planes);
    },
    places: (of) => of.flatMap((kind) => placesOf(kinds.get(kind)?.group)),
  };
}

function dressOf(kind: SceneKind): Dressed {
  const look = lookOf(kind);
  const surface = plainSurface(look.light, look.opacity);
  // a dummy tube has the skin of the tube it stands for, drawn coarser: it is brought forward by more than that
  if (kind === 'jig' || kind === 'bench-jig') {
    surface.material.polygonOffset = true;
    surface.material.polygonOffsetFactor = -2;
    surface.material.polygonOffsetUnits = -1500;
  }
  return { kind, surface, lines: new LineBasicMaterial({ transparent: true, opacity: 0.55 }) };
}

function drawnSolid(solid: SceneSolid, { kind, surface, lines }: Dressed): (Mesh | LineSegments)[] {
  const { positions, normals, edges } = creased(unpackMesh(solid.mesh), CREASE);
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(positions, 3));
  geometry.setAttribute('normal', new BufferAttribute(normals, 3));
  const mesh = new Mesh(geometry, surface.material);
  mesh.userData = { title: solid.title, error: solid.mesh.error };
  if (!lookOf(kind).edges) return [mesh];
  const outline = new BufferGeometry();
  outline.setAttribute('position', new BufferAttribute(edges, 3));
  return [mesh, new LineSegments(outline, lines)];
}

function paintKind({ kind, surface, lines }: Dressed, { theme, ink }: Ground): void {
  const look = lookOf(kind);
  surface.material.color.set(look[theme]);
  surface.cut.value = new Color(look[theme]).lerp(new Color(ink), 0.45);
  lines.color.set(ink);
}

function clipKind({ surface, lines }: Dressed, planes: readonly Plane[]): void {
  cutBy(surface, planes);
  lines.clippingPlanes = [...planes];
}

/** Coordinates of all that is drawn in a group that is shown. */
export const placesOf = (group: Group | undefined): Seen =>
  (group?.visible ? group.children : []).flatMap((c) =>
    c instanceof Mesh ? [c.geometry.getAttribute('position').array as ArrayLike<number>] : [],
  );

/** Empties a group and frees what the graphics card holds for it; materials are kept. */
export function freeGroup(group: Group): void {
  for (const child of [...group.children]) {
    if (child instanceof Mesh || child instanceof LineSegments) child.geometry.dispose();
    group.remove(child);
  }
}

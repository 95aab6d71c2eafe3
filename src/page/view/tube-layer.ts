import { BufferAttribute, BufferGeometry, Color, Group, Mesh, type Plane } from 'three';
import type { SceneData, SceneTube } from '../../export/book/scene-data.js';
import type { Label } from './label-layer.js';
import { markOf } from './palette.js';
import { cutBy, type Surface, setOpacity, tubeSurface } from './skin-material.js';
import { freeGroup } from './solid-layer.js';
import type { Ground } from './theme.js';
import { pathOf, stationAt } from './tube-path.js';
import { SKIN_ERROR, tubeSkin } from './tube-skin.js';

export interface TubeLayer {
  readonly group: Group;
  readonly set: (tubes: readonly SceneTube[]) => void;
  readonly select: (id: string | null) => void;
  readonly paint: (ground: Ground) => void;
  readonly clip: (planes: readonly Plane[]) => void;
}

/** How much is seen of tubes beside the selected one. */
const FADED = 0.22;

/** Tubes in their colours and patterns; dashed and in one quiet colour where they belong to a second scene. */
export function createTubeLayer(dashed = false): TubeLayer {
  const group = new Group();
  let surfaces: { readonly id: string; readonly colour: string; readonly surface: Surface }[] = [];
  let selected: string | null = null;
  let ground: Ground | null = null;
  let planes: readonly Plane[] = [];
  const dress = (): void => {
    for (const { id, colour, surface } of surfaces) {
      const lit = selected === id;
      setOpacity(surface.material, selected === null || lit ? 1 : FADED);
      // of a faded tube only what is nearest is seen, not its bore
      surface.material.depthWrite = true;
      surface.lit.value = lit ? 0.12 : 0;
      surface.material.color.set(dashed && ground ? ground.ink : colour);
      if (ground) surface.cut.value = new Color(colour).lerp(new Color(ground.ink), 0.55);
      cutBy(surface, planes);
    }
  };
  return {
    group,
    set: (tubes) => {
      freeGroup(group);
      for (const { surface } of surfaces) surface.material.dispose();
      surfaces = tubes.map((tube, i) => {
        const { colour, pattern } = markOf(i);
        const surface = tubeSurface(colour, dashed ? 'plain' : pattern, dashed);
        group.add(drawnTube(tube, surface));
        return { id: tube.id, colour, surface };
      });
      dress();
    },
    select: (id) => {
      selected = id;
      dress();
    },
    paint: (given) => {
      ground = given;
      dress();
    },
    clip: (given) => {
      planes = given;
      dress();
    },
  };
}

function drawnTube(tube: SceneTube, { material }: Surface): Mesh {
  const { positions, normals, places, triangles } = tubeSkin(tube);
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(positions, 3));
  geometry.setAttribute('normal', new BufferAttribute(normals, 3));
  geometry.setAttribute('place', new BufferAttribute(places, 2));
  geometry.setIndex(new BufferAttribute(triangles, 1));
  const mesh = new Mesh(geometry, material);
  mesh.userData = { tube: tube.id, title: tube.name, error: SKIN_ERROR };
  return mesh;
}

/** How far from its port a tube bears its name, mm, and how far at most as a part of its length. */
const NAME_AT = 45;
const NAME_PART = 0.25;

/** Where along its length a tube that is laid over another bears its name. */
const OVERLAID_PART = 0.4;

/** The number of every tube near its port, and the scene's name behind it where there is one. */
export const tubeNames = ({ tubes }: SceneData, name = ''): Label[] =>
  tubes.map((tube, i) => ({
    ...nameOf(tube, name, Math.min(NAME_AT, NAME_PART * tube.length)),
    colour: markOf(i).colour,
  }));

/** The same for tubes laid over others: farther along, in no colour of their own. */
export const overlaidNames = ({ tubes }: SceneData, name: string): Label[] =>
  tubes.map((tube) => nameOf(tube, name, OVERLAID_PART * tube.length));

const nameOf = (tube: SceneTube, name: string, run: number): Label => ({
  kind: 'tube',
  text: `${tube.cylinder ?? tube.id}${name === '' ? '' : ` ${name}`}`,
  at: stationAt(pathOf(tube), run).point,
});

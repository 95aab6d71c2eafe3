import {
  CylinderGeometry,
  Group,
  Mesh,
  MeshBasicMaterial,
  Quaternion,
  SphereGeometry,
  TorusGeometry,
  Vector3,
} from 'three';
import type { Triple } from '../../export/book/scene-data.js';
import type { Stage } from './stage.js';

/** A ring round a tube. mm. */
export interface Ring {
  readonly at: Triple;
  readonly axis: Triple;
  readonly radius: number;
}

/** A straight between two places, with a ball at each. */
export interface Span {
  readonly from: Triple;
  readonly to: Triple;
}

export interface MarkLayer {
  readonly rings: (group: string, rings: readonly Ring[], colour: string) => void;
  readonly spans: (group: string, spans: readonly Span[], colour: string) => void;
}

/** Thickness of rings, half that of spans and of the balls at their ends, in pixels: the same at every zoom. */
const RING = 1.6;
const LINE = 1.4;
const BALL = 4.5;

const UP = new Vector3(0, 1, 0);
const ALONG = new Vector3(0, 0, 1);

/** Rings and lines laid over the picture; lines are seen through everything. */
export function createMarkLayer(stage: Stage): MarkLayer {
  const groups = new Map<string, Group>();
  const sized: { readonly mesh: Mesh; readonly group: string; readonly size: (mesh: Mesh, pixel: number) => void }[] =
    [];
  stage.beforeFrame((pixel) => {
    for (const { mesh, size } of sized) size(mesh, pixel);
  });
  const emptied = (name: string): Group => {
    for (let i = sized.length - 1; i >= 0; i--) if (sized[i]!.group === name) sized.splice(i, 1);
    const group = groups.get(name) ?? new Group();
    for (const child of [...group.children]) {
      group.remove(child);
      if (child instanceof Mesh) {
        child.geometry.dispose();
        (child.material as MeshBasicMaterial).dispose();
      }
    }
    groups.set(name, group);
    stage.scene.add(group);
    stage.invalidate();
    return group;
  };
  return {
    rings: (name, rings, colour) => {
      const group = emptied(name);
      for (const { at, axis, radius } of rings) {
        const mesh = new Mesh(new TorusGeometry(radius, 1, 8, 48), new MeshBasicMaterial({ color: colour }));
        mesh.position.set(...at);
        mesh.quaternion.setFromUnitVectors(ALONG, new Vector3(...axis));
        group.add(mesh);
        let drawn = 1;
        sized.push({
          mesh,
          group: name,
          size: (m, pixel) => {
            const thick = RING * pixel;
            if (Math.abs(thick - drawn) < 0.2 * drawn) return;
            drawn = thick;
            m.geometry.dispose();
            m.geometry = new TorusGeometry(radius + thick / 2, thick, 8, 48);
          },
        });
      }
    },
    spans: (name, spans, colour) => {
      const group = emptied(name);
      for (const { from, to } of spans) {
        const material = new MeshBasicMaterial({ color: colour, depthTest: false });
        const [a, b] = [new Vector3(...from), new Vector3(...to)];
        const way = b.clone().sub(a);
        const length = way.length();
        const line = new Mesh(new CylinderGeometry(1, 1, 1, 8), material);
        line.position.copy(a).addScaledVector(way, 0.5);
        line.quaternion.copy(
          length > 0 ? new Quaternion().setFromUnitVectors(UP, way.clone().normalize()) : new Quaternion(),
        );
        const size = (m: Mesh, pixel: number): void => {
          m.scale.set(LINE * pixel, Math.max(length, 1e-6), LINE * pixel);
        };
        add(line, size);
        for (const end of [a, b]) {
          const ball = new Mesh(new SphereGeometry(1, 12, 8), material);
          ball.position.copy(end);
          add(ball, (m, pixel) => m.scale.setScalar(BALL * pixel));
        }
      }
      function add(mesh: Mesh, size: (m: Mesh, pixel: number) => void): void {
        mesh.renderOrder = 10;
        group.add(mesh);
        sized.push({ mesh, group: name, size });
      }
    },
  };
}

import { AmbientLight, Box3, DirectionalLight, OrthographicCamera, Scene, Vector3, WebGLRenderer } from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';

/** Ways of looking, in the world's frame: z leaves the head, x runs along the crank, y is up. */
export const LOOKS = {
  front: { from: [0, 0, 1], up: [0, 1, 0], title: 'Front' },
  top: { from: [0, 1, 0.0001], up: [0, 1, 0], title: 'Top' },
  side: { from: [1, 0, 0], up: [0, 1, 0], title: 'Side' },
  angled: { from: [0.62, 0.5, 0.78], up: [0, 1, 0], title: 'Angled' },
} as const;

export type Look = keyof typeof LOOKS;

/** Where one looks from, so that it can be kept: world mm. */
export interface CameraPlace {
  readonly position: readonly [number, number, number];
  readonly target: readonly [number, number, number];
  readonly zoom: number;
}

/** Coordinates of what is to be in the picture, x, y, z in turn. */
export type Seen = readonly ArrayLike<number>[];

/** The stage: camera, lights and a picture that is drawn when something changed and at no other time. */
export interface Stage {
  readonly scene: Scene;
  readonly camera: OrthographicCamera;
  readonly controls: OrbitControls;
  readonly canvas: HTMLCanvasElement;
  /** False where the browser offers no WebGL: nothing is drawn then, all else goes on. */
  readonly draws: boolean;
  /** Draws soon. */
  readonly invalidate: () => void;
  /** Called before each picture with the size of a pixel in mm. */
  readonly beforeFrame: (act: (pixel: number) => void) => void;
  readonly afterFrame: (act: () => void) => void;
  readonly look: (look: Look, seen: Seen) => void;
  readonly fitTo: (seen: Seen) => void;
  readonly place: () => CameraPlace;
  readonly setPlace: (place: CameraPlace) => void;
  readonly drawn: () => { readonly triangles: number; readonly frames: number };
  readonly dispose: () => void;
}

/** Half the height the camera sees at zoom 1, mm. */
const HALF = 500;

/** Part of the picture's height or width that is filled when all is in it. */
const ROOM = 0.86;

/** How far the camera stands off, mm: farther than any header is large. */
const AWAY = 5000;

export function createStage(canvas: HTMLCanvasElement): Stage {
  const renderer = rendererOn(canvas);
  const scene = new Scene();
  const camera = new OrthographicCamera(-HALF, HALF, HALF, -HALF, 1, 2 * AWAY);
  const sun = new DirectionalLight('#ffffff', 2.1);
  camera.add(sun);
  sun.position.set(-0.5, 1, 1.3);
  scene.add(camera, new AmbientLight('#ffffff', 1.25));
  const controls = new OrbitControls(camera, canvas);
  controls.zoomToCursor = true;
  const before: ((pixel: number) => void)[] = [];
  const after: (() => void)[] = [];
  let waiting = 0;
  let frames = 0;

  const draw = (): void => {
    waiting = 0;
    const { clientWidth: width, clientHeight: height } = canvas;
    if (width === 0 || height === 0) return;
    camera.left = (-HALF * width) / height;
    camera.right = -camera.left;
    camera.updateProjectionMatrix();
    camera.updateMatrixWorld();
    renderer?.setPixelRatio(Math.min(2, devicePixelRatio));
    renderer?.setSize(width, height, false);
    for (const act of before) act((2 * HALF) / height / camera.zoom);
    renderer?.render(scene, camera);
    frames++;
    for (const act of after) act();
  };
  const invalidate = (): void => {
    if (waiting === 0) waiting = requestAnimationFrame(draw);
  };
  const resized = new ResizeObserver(invalidate);
  resized.observe(canvas);
  controls.addEventListener('change', invalidate);

  const fitTo = (seen: Seen): void => {
    const way = camera.position.clone().sub(controls.target).normalize();
    camera.position.copy(controls.target).addScaledVector(way, AWAY);
    camera.lookAt(controls.target);
    camera.updateMatrixWorld();
    const box = boxIn(camera, seen);
    if (box.isEmpty()) return;
    const middle = box.getCenter(new Vector3()).applyMatrix4(camera.matrixWorld);
    const size = box.getSize(new Vector3());
    const aspect = canvas.clientHeight > 0 ? canvas.clientWidth / canvas.clientHeight : 1;
    controls.target.copy(middle);
    camera.position.copy(middle).addScaledVector(way, AWAY);
    camera.zoom = ROOM * 2 * HALF * Math.min(1 / Math.max(1, size.y), aspect / Math.max(1, size.x));
    camera.updateProjectionMatrix();
    controls.update();
    invalidate();
  };
  return {
    scene,
    camera,
    controls,
    canvas,
    draws: renderer !== null,
    invalidate,
    beforeFrame: (act) => before.push(act),
    afterFrame: (act) => after.push(act),
    fitTo,
    look: (name, seen) => {
      const { from } = LOOKS[name];
      camera.position.copy(controls.target).addScaledVector(new Vector3(...from).normalize(), AWAY);
      fitTo(seen);
    },
    place: () => ({ position: tripleOf(camera.position), target: tripleOf(controls.target), zoom: camera.zoom }),
    setPlace: ({ position, target, zoom }) => {
      camera.position.set(...position);
      controls.target.set(...target);
      camera.zoom = zoom;
      camera.updateProjectionMatrix();
      controls.update();
      invalidate();
    },
    drawn: () => ({ triangles: renderer?.info.render.triangles ?? 0, frames }),
    dispose: () => {
      resized.disconnect();
      cancelAnimationFrame(waiting);
      controls.dispose();
      renderer?.dispose();
    },
  };
}

function rendererOn(canvas: HTMLCanvasElement): WebGLRenderer | null {
  if (!canvas.getContext('webgl2', { antialias: true, alpha: true })) return null;
  const renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
  renderer.localClippingEnabled = true;
  renderer.setClearAlpha(0);
  return renderer;
}

export const tripleOf = (v: Vector3): [number, number, number] => [v.x, v.y, v.z];

/** Box round all places, in the camera's own coordinates. */
function boxIn(camera: OrthographicCamera, seen: Seen): Box3 {
  const box = new Box3();
  const into = camera.matrixWorld.clone().invert();
  const p = new Vector3();
  for (const places of seen) {
    for (let i = 0; i < places.length; i += 3) box.expandByPoint(p.fromArray(places, i).applyMatrix4(into));
  }
  return box;
}

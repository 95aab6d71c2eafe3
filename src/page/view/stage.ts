import { AmbientLight, type Box3, DirectionalLight, OrthographicCamera, Scene, Vector3, WebGLRenderer } from 'three';
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
  readonly look: (look: Look, bounds: Box3) => void;
  readonly fit: (bounds: Box3) => void;
  readonly place: () => CameraPlace;
  readonly setPlace: (place: CameraPlace) => void;
  readonly drawn: () => { readonly triangles: number; readonly frames: number };
  readonly dispose: () => void;
}

/** Half the height the camera sees at zoom 1, mm. */
const HALF = 500;

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

  const fit = (bounds: Box3): void => {
    if (bounds.isEmpty()) return;
    const middle = bounds.getCenter(new Vector3());
    const way = camera.position.clone().sub(controls.target).normalize();
    controls.target.copy(middle);
    camera.position.copy(middle).addScaledVector(way, AWAY);
    camera.lookAt(middle);
    camera.updateMatrixWorld();
    camera.zoom = zoomFor(bounds, camera, canvas);
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
    fit,
    look: (name, bounds) => {
      const { from } = LOOKS[name];
      camera.position.copy(controls.target).addScaledVector(new Vector3(...from).normalize(), AWAY);
      fit(bounds);
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

/** The zoom at which all corners of a box stand in the picture with some room round them. */
function zoomFor(bounds: Box3, camera: OrthographicCamera, { clientWidth, clientHeight }: HTMLCanvasElement): number {
  const aspect = clientWidth > 0 && clientHeight > 0 ? clientWidth / clientHeight : 1;
  const inverse = camera.matrixWorldInverse.copy(camera.matrixWorld).invert();
  let [wide, high] = [1, 1];
  for (const x of [bounds.min.x, bounds.max.x])
    for (const y of [bounds.min.y, bounds.max.y])
      for (const z of [bounds.min.z, bounds.max.z]) {
        const p = new Vector3(x, y, z).applyMatrix4(inverse);
        wide = Math.max(wide, Math.abs(p.x));
        high = Math.max(high, Math.abs(p.y));
      }
  return 0.9 * Math.min(HALF / high, (HALF * aspect) / wide);
}

import type { Stage } from './stage.js';

/** What the keys do while the picture has the focus, in words. */
export const KEYS_IN_WORDS: readonly (readonly [keys: string, does: string])[] = [
  ['Arrow keys', 'turn the view'],
  ['Shift and arrow keys', 'move it'],
  ['+ and \u2212', 'bring it nearer or farther'],
  ['Home', 'show the whole header'],
  ['Escape', 'let go of the tube, or of a measurement begun'],
];

/** Each press turns by so much, rad, and moves by so much, pixels. */
const TURN = Math.PI / 24;
const MOVE = 24;
const NEARER = 1.15;

interface Other {
  readonly home: () => void;
  readonly escape: () => void;
}

/** Keys of the picture. The wheel zooms only while it has the focus, so that a page can be scrolled past it. */
export function listenToKeys(stage: Stage, other: Other): void {
  const { canvas, controls } = stage;
  const arrows: Readonly<Record<string, readonly [x: number, y: number]>> = {
    ArrowLeft: [1, 0],
    ArrowRight: [-1, 0],
    ArrowUp: [0, 1],
    ArrowDown: [0, -1],
  };
  canvas.addEventListener('keydown', (e) => {
    if (e.ctrlKey || e.altKey || e.metaKey) return;
    const arrow = arrows[e.key];
    if (arrow && e.shiftKey) controls.pan(-MOVE * arrow[0], -MOVE * -arrow[1]);
    else if (arrow) {
      controls.rotateLeft(TURN * arrow[0]);
      controls.rotateUp(TURN * arrow[1]);
    } else if (e.key === '+' || e.key === '=') zoomBy(stage, NEARER);
    else if (e.key === '-' || e.key === '_') zoomBy(stage, 1 / NEARER);
    else if (e.key === 'Home') other.home();
    else if (e.key === 'Escape') other.escape();
    else return;
    e.preventDefault();
    controls.update();
  });
  canvas.addEventListener(
    'wheel',
    (e) => {
      if (document.activeElement !== canvas && !e.ctrlKey) e.stopImmediatePropagation();
    },
    { capture: true },
  );
}

/** Nearer by a factor above 1, farther by one below. */
export function zoomBy({ camera, invalidate }: Pick<Stage, 'camera' | 'invalidate'>, factor: number): void {
  camera.zoom *= factor;
  camera.updateProjectionMatrix();
  invalidate();
}

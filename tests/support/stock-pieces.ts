import { WORLD } from '../../src/geometry/frame.js';
import type { Path } from '../../src/geometry/path/path.js';
import type { CutPiece } from '../../src/parts/tube/cut-list.js';

/** The tube of the pieces here, mm. */
export const TUBE = { od: 42.4, wall: 1.6 } as const;

const straight = (length: number): Path => ({
  segments: [{ kind: 'straight', from: WORLD.origin, direction: WORLD.z, length }],
});

function pieceOf(name: string, kind: 'straight' | 'bend', length: number): CutPiece['piece'] {
  return {
    name,
    file: name,
    tube: '1',
    cylinder: 1,
    number: 1,
    ...TUBE,
    fromRun: 0,
    toRun: length,
    path: straight(length),
    kind,
    startNormal: WORLD.x,
    endNormal: WORLD.x,
    first: true,
    last: true,
  };
}

/** A straight to be cut, mm; the path of its piece is none that anyone looks at here. */
export const straightPiece = (name: string, length: number): CutPiece => ({
  piece: pieceOf(name, 'straight', length),
  ...TUBE,
  legBefore: length,
  angle: null,
  clr: null,
  legAfter: 0,
  insideArc: null,
  centreArc: null,
  outsideArc: null,
  length,
  clocking: null,
  clockingRound: null,
  startJoint: 'J1.0',
  endJoint: 'J1.1',
  cutLegBefore: length,
  cutLegAfter: 0,
  cutLength: length,
});

/** A bend with legs to be cut, mm and rad. */
export function bendPiece(name: string, clr: number, angle: number, legBefore = 0, legAfter = 0): CutPiece {
  const length = legBefore + clr * angle + legAfter;
  return {
    ...straightPiece(name, length),
    piece: pieceOf(name, 'bend', length),
    legBefore,
    angle,
    clr,
    legAfter,
    cutLegBefore: legBefore,
    cutLegAfter: legAfter,
    insideArc: (clr - TUBE.od / 2) * angle,
    centreArc: clr * angle,
    outsideArc: (clr + TUBE.od / 2) * angle,
  };
}

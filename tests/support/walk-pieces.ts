import type { Vec3 } from '../../src/geometry/vec3.js';

/** A piece as a fabricator reads it off a cut list: mm and rad; clocking is that of the joint before it. */
export interface ReadPiece {
  readonly legBefore: number;
  readonly angle: number | null;
  readonly clr: number | null;
  readonly legAfter: number;
  readonly clocking: number;
}

/** Where one stands on a tube: the way of the gas, and the reference line, square to it. */
export interface Stand {
  readonly point: Vec3;
  readonly direction: Vec3;
  readonly up: Vec3;
}

/** Where pieces set end to end come out, worked out with none of the program's own geometry. */
export function walked(start: Stand, pieces: readonly ReadPiece[]): Stand & { readonly length: number } {
  let { point, direction, up } = start;
  let length = 0;
  const ahead = (by: number): void => {
    point = mix(point, 1, direction, by);
    length += by;
  };
  for (const { legBefore, angle, clr, legAfter, clocking } of pieces) {
    const side: Vec3 = [
      direction[1] * up[2] - direction[2] * up[1],
      direction[2] * up[0] - direction[0] * up[2],
      direction[0] * up[1] - direction[1] * up[0],
    ];
    up = mix(up, Math.cos(clocking), side, Math.sin(clocking));
    ahead(legBefore);
    if (angle !== null && clr !== null) {
      // the outside of the bend lies along `up`: the tube turns away from it
      const centre = mix(point, 1, up, -clr);
      const out = mix(up, Math.cos(angle), direction, Math.sin(angle));
      direction = mix(direction, Math.cos(angle), up, -Math.sin(angle));
      up = out;
      point = mix(centre, 1, up, clr);
      length += clr * angle;
    }
    ahead(legAfter);
  }
  return { point, direction, up, length };
}

const mix = (a: Vec3, k: number, b: Vec3, l: number): Vec3 => [
  a[0] * k + b[0] * l,
  a[1] * k + b[1] * l,
  a[2] * k + b[2] * l,
];

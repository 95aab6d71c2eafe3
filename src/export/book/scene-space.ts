import { type Frame, frameAlong } from '../../geometry/frame.js';
import { hull, hullOfPoints, placed, type Solid } from '../../geometry/solid/solid.js';
import { bar, box } from '../../geometry/solid/solid-shapes.js';
import { along, distance, dot, sub, unit, type Vec3 } from '../../geometry/vec3.js';
import type { KeepOut, Plan } from '../../params/plan.js';
import type { Drawn } from './scene-metal.js';

/** What the header takes up: the middle of its ends and tubes, and how far they reach from there, mm. */
export interface Extent {
  readonly middle: Vec3;
  readonly reach: number;
}

type Scan = Extract<KeepOut, { kind: 'mesh' }>;

/** Chord error of what only marks space, mm: fewer facets. */
export const SPACE_ERROR = 0.3;

/** How thick the piece of a plane is drawn, on the side nothing may enter, mm. */
const SLAB = 2;

/** Kept-out space of every kind but scans. */
export const keepOutSolids = ({ keepOuts }: Plan, extent: Extent): Drawn[] =>
  keepOuts.flatMap((k, i): Drawn[] =>
    k.kind === 'mesh'
      ? []
      : [{ kind: 'keep-out', name: `keep-out-${i + 1}`, title: `keep-out ${k.name}`, solid: solidOfSpace(k, extent) }],
  );

function solidOfSpace(k: Exclude<KeepOut, Scan>, { middle, reach }: Extent): Solid {
  switch (k.kind) {
    case 'box':
      return box(k.from, k.to);
    case 'cylinder':
      return roundBar(alongAxis(k.from, k.to), k.diameter / 2, distance(k.from, k.to));
    case 'capsule':
      return hull(...[k.from, k.to].map((at) => ball(at, k.diameter / 2)));
    case 'half-space': {
      const foot = along(middle, k.normal, -dot(sub(middle, k.point), k.normal));
      return placed(box([-reach, -reach, -SLAB], [reach, reach, 0]), frameAlong(foot, k.normal));
    }
  }
}

const alongAxis = (from: Vec3, to: Vec3): Frame => frameAlong(from, unit(sub(to, from)));

const roundBar = (frame: Frame, radius: number, length: number): Solid =>
  placed(bar(radius, 0, length, radius, SPACE_ERROR), frame);

/** Room for the tools that reach plugs and bolts. */
export const accessSolids = ({ access }: Plan): Drawn[] =>
  access.map((a, i) => ({
    kind: 'access',
    name: `access-${i + 1}`,
    title: `access to ${a.name}`,
    solid: roundBar(a.frame, a.diameter / 2, a.length),
  }));

/** Scans among the kept-out space. */
export const scansOf = ({
  keepOuts,
}: Plan): readonly { readonly name: string; readonly title: string; readonly scan: Scan }[] =>
  keepOuts.flatMap((k, i) =>
    k.kind === 'mesh' ? [{ name: `scan-${i + 1}`, title: `keep-out ${k.name}, scanned`, scan: k }] : [],
  );

/** A ball as the hull of points on its surface; poles stand along z. */
function ball(at: Vec3, radius: number): Solid {
  const step = Math.acos(1 - Math.min(1, SPACE_ERROR / radius)) * 2;
  const rings = Math.max(4, Math.ceil(Math.PI / step));
  return hullOfPoints(
    Array.from({ length: rings + 1 }, (_, i) => (Math.PI * i) / rings).flatMap((a) =>
      Array.from({ length: 2 * rings }, (_, k): Vec3 => {
        const round = (Math.PI * k) / rings;
        const r = radius * Math.sin(a);
        return [at[0] + r * Math.cos(round), at[1] + r * Math.sin(round), at[2] + radius * Math.cos(a)];
      }),
    ),
  );
}

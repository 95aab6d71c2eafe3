import type { Frame } from '../../geometry/frame.js';
import { placed, type Solid } from '../../geometry/solid/solid.js';
import { loft } from '../../geometry/solid/solid-shapes.js';
import type { Vec2 } from '../../geometry/vec2.js';

/** A D-shaped key: a round peg with one flat, so that two parts go together in one clocking only. mm. */
export interface Key {
  readonly radius: number;
  /** Distance of the flat from the axis. */
  readonly flat: number;
  /** Gap per side in the socket. */
  readonly fit: number;
}

/** The socket is this much deeper than the spigot is long, mm: the faces meet, not the peg and the bottom. */
export const SOCKET_RELIEF = 0.5;

/** Metal, or rather plastic, left behind a socket, mm. */
export const SOCKET_FLOOR = 2;

/** A spigot shorter than this, mm, does not guide: the joint is left plain, to be glued face to face. */
export const LEAST_KEY = 3;

/** How far a spigot is sunk into the body that carries it, and a socket opened beyond its mouth, mm. */
const SUNK = 1;

/** Lead-in at a spigot's tip, mm. */
const LEAD_IN = 0.6;

/** Chords round a key: finer than the visible surfaces, because parts must slide (0.014 mm on a radius of 11 mm). */
const FACETS = 64;

/**
 * Key for a joint of round parts of `diameter` mm: half the diameter across, but no wall of the socket thinner than 4 mm
 * (or 22 % of a slim part's diameter), an eighth of the diameter at least, the flat at 0.6 of its radius. The proportions are our own.
 */
export function keyFor(diameter: number, fit: number): Key {
  const wall = Math.min(4, 0.22 * diameter);
  const radius = Math.max(diameter / 8, Math.min(diameter / 4, diameter / 2 - wall - fit));
  return { radius, flat: 0.6 * radius, fit };
}

/** A spigot of `length` mm standing on the joint's frame: z out of the part that carries it, the flat towards y, sunk `sunk` mm into it. */
export function spigot(key: Key, length: number, joint: Frame, sunk: number = SUNK): Solid {
  const full = dSection(key.radius, key.flat);
  const lead = Math.min(LEAD_IN, key.radius / 4, length / 4);
  const tip = dSection(key.radius - lead, key.flat - lead);
  const sections = [
    { z: -sunk, points: full },
    { z: length - lead, points: full },
    { z: length, points: tip },
  ];
  return placed(loft(sections), joint);
}

/**
 * What to cut for a socket that takes a spigot of `length` mm: z into the part, the flat towards y, opened `mouth` mm back
 * from the joint. The gap is `fit` or a hair more. One that opens on the bed gets a chamfer of `edge` mm there, for the first layer's bulge.
 */
export function socket(key: Key, length: number, joint: Frame, mouth: number = SUNK, edge = 0): Solid {
  const section = (wider: number): Vec2[] =>
    dSection((key.radius + key.fit + wider) / Math.cos(Math.PI / FACETS), key.flat + key.fit + wider);
  const points = section(0);
  const open =
    edge > 0
      ? [
          { z: -mouth, points: section(edge) },
          { z: 0, points: section(edge) },
          { z: edge, points },
        ]
      : [{ z: -mouth, points }];
  return placed(loft([...open, { z: length + SOCKET_RELIEF, points }]), joint);
}

/** What a part needs along a socket's axis for a spigot of `length` mm, the floor behind it included. */
export const socketRoom = (length: number): number => length + SOCKET_RELIEF + SOCKET_FLOOR;

/** Counter-clockwise section: a circle of `radius` about the origin cut by y <= `flat`, always with the same number of corners. */
function dSection(radius: number, flat: number): Vec2[] {
  const from = Math.PI - Math.asin(flat / radius);
  const sweep = Math.PI + 2 * Math.asin(flat / radius);
  return Array.from({ length: FACETS + 1 }, (_, i): Vec2 => {
    const a = from + (sweep * i) / FACETS;
    return [radius * Math.cos(a), radius * Math.sin(a)];
  });
}

import { directionInto, frameFacing, WORLD } from '../../geometry/frame.js';
import { difference, hull, placed, type Solid } from '../../geometry/solid/solid.js';
import { bar } from '../../geometry/solid/solid-shapes.js';
import { textSolid, textStrokes } from '../../geometry/solid/text-solid.js';
import type { Vec3 } from '../../geometry/vec3.js';
import { lengthWords } from '../../params/faults/wording.js';
import type { Plan } from '../../params/plan.js';
import type { KeptOut } from '../../routing/problem.js';
import type { RoutedTube } from '../../routing/routed.js';
import type { SolidPart } from '../part.js';
import { printedPart } from '../printed-part.js';
import { type CombPlace, type CombSeat, combPlaces, REACH } from './comb-places.js';
import { ENGRAVED } from './printed-writing.js';
import { PROUD } from './skin-text.js';
import type { TakenLine } from './strut-line.js';

/** Combs and remarks where tubes run close and none can stand. */
export interface Combs {
  readonly parts: readonly SolidPart[];
  readonly notes: readonly string[];
}

/**
 * Spacing combs: plates with a seat for every tube, open to one side, pushed on across tubes that run side by side. A seat is
 * larger than its tube all round by the fit and by how far names and ticks stand proud.
 */
export function combsOf(
  plan: Plan,
  tubes: readonly RoutedTube[],
  keptOut: readonly KeptOut[],
  struts: readonly TakenLine[],
): Combs {
  const gap = plan.jig.fit + PROUD;
  const { places, missed } = combPlaces({
    tubes,
    obstacles: keptOut.map((k) => k.obstacle),
    struts,
    half: plan.jig.plate / 2,
    gap,
  });
  return {
    parts: places.map((place, i) => combPart(plan, place, i + 1, gap)),
    notes: missed.map(
      ([a, b]) =>
        `comb for ${a} and ${b}: they run close but no plane free of other parts crosses both; tie them by other means`,
    ),
  };
}

function combPart(plan: Plan, place: CombPlace, number: number, gap: number): SolidPart {
  const ids = place.seats.map((s) => s.id);
  const runs = place.seats.map((s) => `${s.id} at ${lengthWords(s.run, plan.units, 0)}`).join(', ');
  return printedPart(
    {
      name: `comb-${number}`,
      kind: 'spacing-comb',
      title: `Comb for ${ids.join(', ')}: ${runs} along the tube`,
      solid: combSolid(place, plan.jig.plate, gap),
      at: place.frame,
      up: WORLD,
      chamfer: plan.jig.chamfer,
    },
    plan.jig.bed,
  );
}

/** Height of a seat's number, mm, and how far its middle is below the seat. */
const NUMBER = 4;

/** The comb in its own frame, its middle in the plane z = 0. */
function combSolid({ frame, seats }: CombPlace, thickness: number, gap: number): Solid {
  const half = thickness / 2;
  const discs = seats.map((s) =>
    placed(bar(s.radius + gap + REACH, -half, half), { ...WORLD, origin: [s.at[0], s.at[1], 0] }),
  );
  const far = 2 * Math.max(...seats.map((s) => Math.abs(s.at[1]) + s.radius + REACH)) + 50;
  return difference(
    hull(...discs),
    ...seats.map((s) => channel(s, directionInto(frame, s.direction), thickness, far, gap)),
    ...seats.map((s) => {
      const strokes = textStrokes(s.id.length <= 3 ? s.id : s.id.slice(0, 3), NUMBER);
      const at: Vec3 = [s.at[0], s.at[1] - s.radius - gap - REACH / 2, half];
      return placed(textSolid(strokes, -ENGRAVED, 1), { ...WORLD, origin: at });
    }),
  );
}

/** What one tube takes out: itself, and the way it comes in along y. */
function channel({ at, radius }: CombSeat, direction: Vec3, thickness: number, far: number, gap: number): Solid {
  const tube = (y: number): Solid =>
    placed(bar(radius + gap, -2 * thickness, 2 * thickness), frameFacing([at[0], y, 0], direction, [0, 1, 0]));
  return hull(tube(at[1]), tube(at[1] + far));
}

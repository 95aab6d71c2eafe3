import { directionInto, WORLD } from '../../geometry/frame.js';
import type { CollectorPlan, Plan } from '../../params/plan.js';
import type { KeptOut } from '../../routing/problem.js';
import type { RoutedPrimary, RoutedSecondary } from '../../routing/routed.js';
import type { FlangePart } from '../flange/flange.js';
import type { SolidPart } from '../part.js';
import { collectorFiles, printedPart } from '../printed-part.js';
import { piecesOf } from '../tube/pieces.js';
import { blockFootPlaces, footPlaces } from './foot-places.js';
import { feedsAnother, type HolderBlock, holderBlock, seatsFor } from './holder-block.js';
import { type HeldTube, type HolderArm, holderSolid } from './holder-ring.js';
import { casesOf, dummyTubes, type HolderStiffness, holderStiffness } from './holder-stiffness.js';
import { holderStruts } from './holder-struts.js';
import { takesScrew } from './joint-screw.js';
import { barNormal } from './keyed-bar.js';
import { outletStem } from './outlet-stem.js';
import { type TakenLine, takenBy } from './strut-line.js';
import { directionAt, strutParts } from './strut-parts.js';
import { STRUT_SIZES } from './strut-sizes.js';
import type { StrutSpace } from './strut-space.js';
import { outletKey, outOfHolder } from './tube-jigs.js';

/** The parts that hold one collector's inlets in place over the flange, and remarks where they cannot. */
export interface CollectorHolder {
  readonly parts: readonly SolidPart[];
  readonly notes: readonly string[];
  /** What its struts take up, for the holders that follow. */
  readonly taken: readonly TakenLine[];
  /** Null where no strut stands. */
  readonly stiffness: HolderStiffness | null;
}

/** What stands in the mock-up besides the holder to be made. */
export interface Surroundings {
  readonly tubes: readonly (RoutedPrimary | RoutedSecondary)[];
  readonly flanges: readonly FlangePart[];
  /** Space the struts keep out of, tools' room left aside. */
  readonly keptOut: readonly KeptOut[];
  /** What the struts of the holders before take up. */
  readonly taken: readonly TakenLine[];
  /** How stiff the holders before are. */
  readonly before: readonly HolderStiffness[];
}

/**
 * Holder of a collector: a block with a socket for every last dummy tube, exactly at the inlets, and struts from it to feet
 * bolted to the printed flange, two to four as its stiffness asks, clear of every tube by 2 mm. Where the collector feeds another, a stem goes on
 * from the block to its outlet and carries the secondary.
 */
export function collectorHolder(plan: Plan, collector: number, around: Surroundings): CollectorHolder {
  const c = plan.collectors[collector]!;
  const spaceFor = (strut: number): StrutSpace | null => {
    const block = holderBlock(plan, c, strut);
    return block && strutSpace(plan, c, block, around);
  };
  const arriving = dummyTubes(plan, collector, around);
  const cases = casesOf(arriving);
  // bolts are left for the collector that follows, which its stem carries too
  const standing = holderStruts({ jig: plan.jig, spaceFor, cases, fewest: feedsAnother(plan, c) ? 2 : 3 });
  const block = standing?.block ?? holderBlock(plan, c, plan.jig.strut ?? STRUT_SIZES[0]!);
  if (!block) return { parts: [], notes: [tooShort(c.name)], taken: [], stiffness: null };
  const struts = standing?.lines ?? [];
  const name = plan.collectors.length === 1 ? '' : `-${collectorFiles(plan.collectors)[collector]}`;
  const arms = struts.map((s): HolderArm => {
    const d = directionAt(s.points, 0);
    const normal = directionInto(c.frame, barNormal(d));
    return { arm: s.arm, out: s.out, direction: directionInto(c.frame, d), normal };
  });
  const leaving = around.tubes.find((t): t is RoutedSecondary => 'from' in t && t.from === collector);
  const stemNormal = leaving ? piecesOf(plan, leaving)[0]!.startNormal : null;
  const tubes = heldTubes(plan, collector, around.tubes);
  const ring = printedPart(
    {
      name: `holder${name}`,
      kind: 'collector-holder',
      title: `Holder at the inlets of collector ${c.name}`,
      solid: holderSolid(block, { tubes, arms, stemNormal: stemNormal && directionInto(c.frame, stemNormal) }),
      at: c.frame,
      up: { ...WORLD, y: [0, -1, 0], z: [0, 0, -1] },
      chamfer: plan.jig.chamfer,
    },
    plan.jig.bed,
  );
  const { bed } = plan.jig;
  const stem =
    block.stem && leaving && stemNormal
      ? outletStem(block, block.stem, {
          collector: c,
          file: name,
          joint: outletKey(plan, leaving),
          normal: stemNormal,
          bed,
        })
      : [];
  return {
    parts: [ring, ...stem, ...struts.flatMap((s, i) => strutParts(plan, block, s, name, i + 1))],
    notes: notesOn(c.name, struts.length, block, plan.jig.holder?.collector === collector),
    taken: struts.flatMap((s) => takenBy(s, block)),
    stiffness: standing && holderStiffness(plan, c, standing, arriving),
  };
}

/** Longest mark with room on a holder. */
const LONGEST_MARK = 8;

/** The tubes at a collector's inlets, inlet 1 first. Where a secondary's name cannot be written its number in the collector's list stands for it. */
function heldTubes(plan: Plan, collector: number, all: Surroundings['tubes']): HeldTube[] {
  const { frame, from } = plan.collectors[collector]!;
  const writes = (id: string): boolean => id.length <= LONGEST_MARK && /^[\x21-\x7e]+$/.test(id);
  return all
    .filter((t) => t.collector === collector)
    .sort((a, b) => a.inlet - b.inlet)
    .map((tube) => ({
      mark: writes(tube.id) ? tube.id : String(from.indexOf(tube.id) + 1),
      normal: directionInto(frame, piecesOf(plan, tube).at(-1)!.endNormal),
      screw:
        plan.jig.joint === 'screw' && takesScrew(plan.jig.keyLength)
          ? directionInto(frame, outOfHolder(plan, tube))
          : null,
    }));
}

const tooShort = (name: string): string =>
  `collector ${name}: it ends before a printed holder would; hold its inlets and its outlet by other means`;

/** A holder that feeds another collector stands by its dummy tubes and what follows when one strut holds it too. */
function notesOn(name: string, struts: number, { stem }: HolderBlock, onBlock: boolean): string[] {
  if (struts >= (stem ? 1 : 2)) return [];
  const [bolts, mend] = onBlock
    ? ["the block's bolts", 'choose bolts further from the tubes']
    : ["the flange's bolts", 'give the flange a bolt further from the ports'];
  const found = struts === 0 ? 'no way' : 'only one way';
  return [
    `collector ${name}: ${found} for a strut between its holder and ${bolts} is clear of the tubes; ` +
      `hold it by other means, or ${mend}`,
  ];
}

function strutSpace(
  plan: Plan,
  collector: CollectorPlan,
  block: HolderBlock,
  { tubes, flanges, keptOut, taken }: Surroundings,
): StrutSpace {
  const index = plan.collectors.indexOf(collector);
  const { holder } = plan.jig;
  const cylinders = plan.collectors
    .filter((c) => c === collector || collector.from.includes(c.name))
    .flatMap((c) => c.cylinders);
  const heads = [...new Set(plan.ports.filter((p) => cylinders.includes(p.cylinder)).map((p) => p.head))];
  const standing = flanges.filter((f) => heads.includes(f.head));
  const onThem = plan.ports.filter((p) => heads.includes(p.head)).map((p) => String(p.cylinder));
  const arriving = tubes.filter((t) => t.collector === index).map((t) => t.id);
  const seats = seatsFor(block.strut);
  // a strut stands on its own head and starts beside its own collector
  const away = keptOut.filter(
    (k) => !k.endsOn.some((id) => arriving.includes(id)) && !k.startsOn.some((id) => onThem.includes(id)),
  );
  return {
    block,
    frame: collector.frame,
    feet:
      holder?.collector === index
        ? seats.flatMap((r) => blockFootPlaces(plan, holder, r))
        : standing.flatMap((f) => seats.flatMap((r) => footPlaces(plan, f, r))),
    tubes,
    ending: arriving,
    obstacles: away.map((k) => k.obstacle),
    taken,
  };
}

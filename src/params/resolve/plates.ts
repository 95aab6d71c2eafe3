import { DEFAULTS } from '../defaults.js';
import type { GasketsPlan, PlateBolts, PlatePattern, PlatePlan, PlateThroat } from '../plan.js';
import type { PlanFile } from '../schema/plan-file.js';
import { clearanceHole } from '../tables/bolt-holes.js';
import { parseLength } from '../units.js';

/** One plate of the file. */
export type PlateSection = PlanFile['plates'][number];

/** Outside diameter and wall of a collector's outlet, mm. */
interface Outlet {
  readonly od: number;
  readonly wall: number;
}

/** The collectors a plate is for, as a list. */
export const feedsOf = ({ for: whose }: PlateSection): readonly string[] =>
  whose === undefined ? [] : typeof whose === 'string' ? [whose] : whose;

/** The plates of a plan; what they leave out is the flange's, or comes from the outlet they are for. */
export function platesOf(file: Pick<PlanFile, 'plates' | 'flange'>, outletOf: (name: string) => Outlet): PlatePlan[] {
  const { flange } = file;
  return file.plates.map((section) => {
    const feeds = feedsOf(section);
    const outlet = feeds[0] === undefined ? null : outletOf(feeds[0]);
    const isBolted = 'thread' in section;
    return {
      name: section.name,
      feeds,
      count: section.count,
      thickness: ('thickness' in section ? section.thickness : undefined) ?? flange.thickness,
      material: section.material ?? flange.material,
      edge: isBolted ? section.edge : 0,
      throatEdge: isBolted ? section.throat_edge : 0,
      web: flange.web,
      fillet: (isBolted ? section.fillet : undefined) ?? null,
      gasket: isBolted && section.gasket,
      pattern: patternOf(section, outlet, flange.bolt_fit),
    };
  });
}

/** Where the plan leaves a size out its rules have seen to it that there is an outlet. */
function patternOf(s: PlateSection, outlet: Outlet | null, fit: PlanFile['flange']['bolt_fit']): PlatePattern {
  switch (s.kind) {
    case 'rectangle_four_bolt':
      return { kind: s.kind, bolts: boltsOf(s, fit), boltX: s.bolt_x, boltY: s.bolt_y, throat: throatOf(s, outlet) };
    case 'triangle_three_bolt':
      return { ...ringOf(s, outlet, fit), kind: s.kind, count: 3, od: null };
    case 'round':
      return { ...ringOf(s, outlet, fit), kind: s.kind, count: s.bolts, od: s.od ?? null };
    case 'oval_two_bolt': {
      const { bolt_spacing: boltSpacing, clocking } = s;
      return { kind: s.kind, bolts: boltsOf(s, fit), boltSpacing, clocking, throat: boreOf(s, outlet) };
    }
    case 'vband_bore': {
      const bore = (s.tube_od ?? outlet!.od) + 2 * s.fit;
      return { kind: s.kind, bore, od: s.od ?? bore + 2 * LAND };
    }
    case 'slip_joint':
      return {
        kind: s.kind,
        tubeOd: s.tube_od ?? outlet!.od,
        wall: s.wall ?? outlet!.wall,
        overlap: s.overlap,
        fit: s.fit,
      };
  }
}

/** Width of the ring of a V-band joint round its bore, mm. */
const LAND = parseLength(DEFAULTS.plates.vband.land, 'mm')!;

type Bolted = Exclude<PlateSection, { readonly kind: 'vband_bore' | 'slip_joint' }>;
type Bored = Exclude<Bolted, { readonly kind: 'rectangle_four_bolt' }>;
type Ringed = Extract<Bored, { readonly bolt_circle: number }>;

const boltsOf = (s: Bolted, fit: PlanFile['flange']['bolt_fit']): PlateBolts => ({
  thread: s.thread,
  holeDiameter: s.hole_diameter ?? clearanceHole(s.thread, s.bolt_fit ?? fit),
});

const ringOf = (s: Ringed, outlet: Outlet | null, fit: PlanFile['flange']['bolt_fit']) => ({
  bolts: boltsOf(s, fit),
  boltCircle: s.bolt_circle,
  clocking: s.clocking,
  throat: boreOf(s, outlet),
});

const boreOf = (s: Bored, outlet: Outlet | null): PlateThroat => ({
  kind: 'round',
  diameter: s.bore ?? outlet!.od + 2 * s.fit,
});

function throatOf(s: Extract<Bolted, { readonly kind: 'rectangle_four_bolt' }>, outlet: Outlet | null): PlateThroat {
  const { throat } = s;
  if (throat === undefined) return { kind: 'round', diameter: outlet!.od + 2 * s.fit };
  if (throat.kind === 'round') return throat;
  const { corner_radius: cornerRadius, ...rest } = throat;
  return { ...rest, cornerRadius };
}

/** Null when the plan wants none. */
export const gasketsOf = (gaskets: PlanFile['gaskets']): GasketsPlan | null => gaskets ?? null;

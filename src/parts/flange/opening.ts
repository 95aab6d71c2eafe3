import { intersectionOf } from '../../geometry/outline/clip.js';
import { hullOf } from '../../geometry/outline/hull.js';
import { outlineArea, signedArea } from '../../geometry/outline/measure.js';
import { offsetOutline } from '../../geometry/outline/offset.js';
import type { Outline } from '../../geometry/outline/outline.js';
import { roundOuterCorners } from '../../geometry/outline/round.js';
import { smoothOutline } from '../../geometry/outline/smooth.js';
import { reverseOutline, translateOutline } from '../../geometry/outline/transform.js';
import type { Plan, Port } from '../../params/plan.js';
import { type LedgeProfile, ledgesOf } from './ledge.js';
import { axisOnFace, tubeSection } from './tube-section.js';

/** Radius at the corners where two contours of a transition cross, mm: what a cutter follows without stopping. */
const CROSSING_RADIUS = 1;

/** Sides of a transition's cut shorter than this are smoothed away, mm. */
const SMOOTHED_SIDE = 0.1;

/** What is ground away by hand between the cut and the contours of both faces. */
export interface Blend {
  /** What is ground to at the head face and at the outer face. */
  readonly headContour: Outline;
  /** The same at the outer face. */
  readonly outerContour: Outline;
  /** Deepest metal to take off at the head face and at the outer face, all round, mm. */
  readonly head: LedgeProfile;
  /** The same at the outer face. */
  readonly outer: LedgeProfile;
  /** Metal to take off, mm3: wedges that taper from the full depth at their face to nothing at the other. */
  readonly volume: number;
}

/** One opening with all that the gas meets in it. Contours in head face coordinates, counter-clockwise, mm. */
export interface OpeningFlow {
  /** Cylinder number, from 1. */
  readonly cylinder: number;
  /** What is cut straight through the plate. */
  readonly cut: Outline;
  /** Outline of the port, on the head face, mm. */
  readonly port: Outline;
  /** What the gas meets at the head face and leaves by at the outer face, when all is done. */
  readonly head: Outline;
  /** What it leaves by at the outer face, when all is done. */
  readonly outer: Outline;
  /** The bore of the tube at the outer face. */
  readonly bore: Outline;
  /** Steps that face the gas: the plate against the port, the tube against the plate. */
  readonly atHead: LedgeProfile;
  /** The step of the tube against the plate. */
  readonly atTube: LedgeProfile;
  /** Across the port's axis, mm2. */
  readonly areas: {
    /** Of the port. */
    readonly port: number;
    /** Of the opening. */
    readonly opening: number;
    /** Of the tube. */
    readonly bore: number;
  };
  /** Null but for a transition. */
  readonly blend: Blend | null;
}

/** The opening of one port, as the plan wants it matched. Throws Error when port and tube of a transition have too little in common. */
export function openingFlow(plan: Plan, port: Port): OpeningFlow {
  const { opening, thickness } = plan.flange;
  const outside = plan.tube.od / 2;
  const section = (radius: number, height: number) => tubeSection(plan, port, radius, height);
  const own = translateOutline(counterClockwise(port.outline), port.at);
  const bore = section(outside - plan.tube.wall, thickness);
  const flow = (cut: Outline, head: Outline, outer: Outline, blend: Blend | null = null): OpeningFlow => {
    const across = axisOnFace(plan, port)[2];
    const areas = {
      port: outlineArea(own) * across,
      opening: outlineArea(head) * across,
      bore: outlineArea(bore) * across,
    };
    const atHead = ledgesOf(own, head, port.at);
    const atTube = ledgesOf(outer, bore, port.at);
    return { cylinder: port.cylinder, cut, port: own, head, outer, bore, atHead, atTube, areas, blend };
  };
  switch (opening.match) {
    case 'port': {
      const cut = grown(own, opening.enlarge);
      return flow(cut, cut, cut);
    }
    case 'tube_bore':
      return flow(bore, bore, bore);
    case 'tube_od': {
      // the tube passes the plate along its axis: at a tilt the straight cut holds its section at both faces
      const radius = outside + opening.fit;
      const cut = hullOf([section(radius, 0), section(radius, thickness)]);
      return flow(cut, section(outside - plan.tube.wall, 0), bore);
    }
    case 'transition': {
      const head = grown(own, opening.enlarge);
      const outer = opening.outer === 'tube_bore' ? bore : section(outside, thickness);
      const cut = commonCut(head, outer, port.cylinder);
      const shaved = (contour: Outline): number => ((outlineArea(contour) - outlineArea(cut)) * thickness) / 2;
      const blend: Blend = {
        headContour: head,
        outerContour: outer,
        head: ledgesOf(head, cut, port.at),
        outer: ledgesOf(outer, cut, port.at),
        volume: shaved(head) + shaved(outer),
      };
      return flow(cut, head, bore, blend);
    }
  }
}

/** What can be cut straight through without taking metal that either face needs. */
function commonCut(head: Outline, outer: Outline, cylinder: number): Outline {
  const common = intersectionOf(head, outer);
  if (common.length !== 1) {
    throw new Error(
      `the port of cylinder ${cylinder} and its tube have no one opening in common: no transition is made`,
    );
  }
  const round = roundOuterCorners(common[0]!, CROSSING_RADIUS);
  return smoothOutline(round, SMOOTHED_SIDE);
}

const grown = (outline: Outline, by: number): Outline => (by === 0 ? outline : offsetOutline(outline, by));

const counterClockwise = (outline: Outline): Outline => (signedArea(outline) < 0 ? reverseOutline(outline) : outline);

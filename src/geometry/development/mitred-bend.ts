/** A bend made of straight segments of tube. */
export interface MitredBend {
  /** Angle of every cut from square across, rad: turn / (2 joints). */
  readonly cut: number;
  /** Length of a middle segment and of an end segment on the centreline, mm. */
  readonly segment: number;
  readonly end: number;
  /** Segments between the two ends. */
  readonly middles: number;
  /** Middle segment on the inside and the outside of the bend, mm. */
  readonly inside: number;
  readonly outside: number;
}

/**
 * A bend of `turn` rad about a centreline radius, mm, cut into joints: each takes turn / joints, half of it in either face. A middle
 * segment is 2 CLR tan(cut) long, an end half of that: the centreline touches the arc at the middle of every segment. Own
 * derivation; the cut angle is published as turn / (2 joints). Throws RangeError when the inside of a segment has no length.
 */
export function mitredBend(turn: number, clr: number, joints: number, od: number): MitredBend {
  if (!(Number.isInteger(joints) && joints >= 1)) throw new RangeError(`a bend has 1 joint or more, not ${joints}`);
  if (!(turn > 0 && turn / joints < Math.PI)) throw new RangeError(`no cut turns a tube by ${turn / joints} rad`);
  const cut = turn / (2 * joints);
  const k = Math.tan(cut);
  if (!(clr > od / 2)) throw new RangeError(`a centreline radius of ${clr} mm leaves no inside of a tube of ${od} mm`);
  return {
    cut,
    segment: 2 * clr * k,
    end: clr * k,
    middles: joints - 1,
    inside: (2 * clr - od) * k,
    outside: (2 * clr + od) * k,
  };
}

import { distance2, type Vec2 } from '../../geometry/vec2.js';

/** A label to be placed near a point of a drawing, mm on the page. */
export interface LabelWish {
  readonly at: Vec2;
  /** Width and height of the words. */
  readonly size: Vec2;
  /** True where it may cover the point itself. */
  readonly onPoint: boolean;
}

/** A disc of the drawing that labels had better leave free. */
export interface Blocker {
  readonly at: Vec2;
  readonly radius: number;
}

/** Steps outwards, mm, and directions tried. */
const STEPS = [2, 4, 6, 8, 11, 14, 18, 23];
const DIRECTIONS = 16;

interface Placed {
  readonly at: Vec2;
  readonly size: Vec2;
  /** The point it belongs to. */
  readonly point: Vec2;
}

/** Middles of labels, each beside its point: clear of labels placed before it, within the box, off the drawing as far as can be. */
export function placeLabels(wishes: readonly LabelWish[], blockers: readonly Blocker[], from: Vec2, to: Vec2): Vec2[] {
  const placed: Placed[] = [];
  return wishes.map(({ at, size, onPoint }) => {
    const candidates = onPoint ? [at, ...around(at, size)] : around(at, size);
    const costs = candidates.map((c) => {
      const label: Placed = { at: c, size, point: at };
      return distance2(c, at) + beyond(label, from, to) + among(label, placed) + (c === at ? 0 : over(label, blockers));
    });
    const best = candidates[costs.indexOf(Math.min(...costs))]!;
    placed.push({ at: best, size, point: at });
    return best;
  });
}

function around([x, y]: Vec2, [w, h]: Vec2): Vec2[] {
  return STEPS.flatMap((step) =>
    Array.from({ length: DIRECTIONS }, (_, i): Vec2 => {
      const a = (2 * Math.PI * i) / DIRECTIONS;
      const [c, s] = [Math.cos(a), Math.sin(a)];
      // Far enough that the words' box begins `step` from the point.
      const reach = step + Math.min(w / 2 / Math.max(Math.abs(c), 1e-9), h / 2 / Math.max(Math.abs(s), 1e-9));
      return [x + reach * c, y + reach * s];
    }),
  );
}

/** White kept round words, mm. */
const CLEAR = 0.7;

/** Cost of standing out of the box. */
const beyond = ({ at, size }: Placed, from: Vec2, to: Vec2): number =>
  [0, 1].some((k) => at[k]! - size[k]! / 2 < from[k]! || at[k]! + size[k]! / 2 > to[k]!) ? 1e6 : 0;

/** Cost of touching labels placed before, of a leader across one, and of covering a leader. */
function among(label: Placed, placed: readonly Placed[]): number {
  const cost = (p: Placed): number => {
    const apart = [0, 1].some(
      (k) => Math.abs(p.at[k]! - label.at[k]!) >= (p.size[k]! + label.size[k]!) / 2 + 2 * CLEAR,
    );
    return (apart ? 0 : 1e4) + (crosses(label, p) ? 60 : 0) + (crosses(p, label) ? 60 : 0);
  };
  return placed.reduce((sum, p) => sum + cost(p), 0);
}

/** True when the leader of one label runs through the words of another: its part within their box, by clipping (Liang and Barsky, 1984). */
function crosses(a: Placed, b: Placed): boolean {
  let [from, to] = [0, 1];
  for (const k of [0, 1] as const) {
    const [p, d] = [a.point[k] - b.at[k], a.at[k] - a.point[k]];
    const half = b.size[k] / 2 + 0.3;
    if (Math.abs(d) < 1e-9) {
      if (Math.abs(p) >= half) return false;
      continue;
    }
    const [s, t] = [(-half - p) / d, (half - p) / d];
    from = Math.max(from, Math.min(s, t));
    to = Math.min(to, Math.max(s, t));
  }
  return from < to;
}

/** Cost of covering the drawing. */
function over({ at, size }: Placed, blockers: readonly Blocker[]): number {
  const [hw, hh] = [size[0] / 2 + CLEAR, size[1] / 2 + CLEAR];
  let sum = 0;
  for (const b of blockers) {
    const dx = Math.max(Math.abs(b.at[0] - at[0]) - hw, 0);
    const dy = Math.max(Math.abs(b.at[1] - at[1]) - hh, 0);
    if (dx >= b.radius || dy >= b.radius) continue;
    const gap = Math.sqrt(dx * dx + dy * dy);
    if (gap < b.radius) sum += 2 + 4 * (1 - gap / b.radius);
  }
  return sum;
}

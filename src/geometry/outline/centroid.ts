import { add2, cross2, scale2, sub2, type Vec2 } from '../vec2.js';
import type { Outline } from './outline.js';
import { sidesOf } from './sides.js';

/**
 * Centre of an outline's area, mm: triangles from the first vertex and the segments between arcs and chords. A segment of half
 * angle a has its centre 4 r sin^3 a / (3 (2 a - sin 2a)) from the arc's centre: Bronstein, Taschenbuch der Mathematik, from memory.
 * Throws RangeError for an outline without area.
 */
export function outlineCentroid(outline: Outline): Vec2 {
  const first = outline.vertices[0];
  const about: Vec2 = first === undefined ? [0, 0] : [first.x, first.y];
  let area = 0;
  let moment: Vec2 = [0, 0];
  for (const s of sidesOf(outline)) {
    const [a, b] = [sub2(s.from, about), sub2(s.to, about)];
    const triangle = cross2(a, b) / 2;
    area += triangle;
    moment = add2(moment, scale2(add2(a, b), triangle / 3));
    if (s.kind === 'line') continue;
    const half = Math.abs(s.sweep) / 2;
    // r^2 (2a - sin 2a) / 2 times the distance above is 2 r^3 sin^3 a / 3: small angles cancel nothing.
    const segment = (Math.sign(s.sweep) * s.radius ** 2 * (2 * half - Math.sin(2 * half))) / 2;
    const middle = s.start + s.sweep / 2;
    const out: Vec2 = [Math.cos(middle), Math.sin(middle)];
    const halfChord = s.radius * Math.sin(half);
    const lever = (Math.sign(s.sweep) * 2 * halfChord * halfChord * halfChord) / 3;
    area += segment;
    moment = add2(moment, add2(scale2(sub2(s.centre, about), segment), scale2(out, lever)));
  }
  if (!(Math.abs(area) > 0)) throw new RangeError('an outline without area has no centre');
  return add2(about, scale2(moment, 1 / area));
}

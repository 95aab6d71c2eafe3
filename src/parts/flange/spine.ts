import { add2, distance2, dot2, scale2, sub2, type Vec2 } from '../../geometry/vec2.js';

/** A straight run between two neighbouring ports: their places in the list of ports. */
export interface SpineLink {
  readonly a: number;
  readonly b: number;
}

/** Neighbours to be joined so that all points hang together with the least length: Prim's tree, ties to the earlier point. */
export function spineOf(points: readonly Vec2[]): readonly SpineLink[] {
  const links: SpineLink[] = [];
  const inTree = [0];
  while (inTree.length < points.length) {
    let best: (SpineLink & { readonly d: number }) | null = null;
    for (const a of inTree) {
      for (let b = 0; b < points.length; b++) {
        if (inTree.includes(b)) continue;
        const d = distance2(points[a]!, points[b]!);
        if (best === null || d < best.d - 1e-9) best = { a, b, d };
      }
    }
    links.push({ a: best!.a, b: best!.b });
    inTree.push(best!.b);
  }
  return links;
}

/** Point of the spine nearest to p: on a link, or the only port. */
export function nearestOnSpine(points: readonly Vec2[], links: readonly SpineLink[], p: Vec2): Vec2 {
  const feet = links.map(({ a, b }) => foot(points[a]!, points[b]!, p));
  return [...feet, ...(links.length === 0 ? points : [])].reduce((x, y) => (distance2(y, p) < distance2(x, p) ? y : x));
}

function foot(a: Vec2, b: Vec2, p: Vec2): Vec2 {
  const along = sub2(b, a);
  const square = dot2(along, along);
  const t = square === 0 ? 0 : Math.min(Math.max(dot2(sub2(p, a), along) / square, 0), 1);
  return add2(a, scale2(along, t));
}

import { type LengthWords, lengthsIn } from '../params/faults/wording.js';
import type { FlangePart } from '../parts/flange/flange.js';
import { boltMargins, type FlangeMargin, openingMargins, websOf } from '../parts/flange/margins.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';
import { EDGE_SLACK } from './slack.js';

/** Least metal round every opening and every bolt hole. */
export function flangeEdges({ plan, flanges }: CheckContext): Finding[] {
  const { portEdge, boltEdge } = plan.flange;
  const words = lengthsIn(plan.units);
  return flanges.flatMap((f) => [
    ...openingMargins(f).map((m) => edge('flange.port-edge', f, m, portEdge, words)),
    ...boltMargins(f).map((m) => edge('flange.bolt-edge', f, m, boltEdge, words)),
  ]);
}

function edge(id: string, flange: FlangePart, m: FlangeMargin, limit: number, words: LengthWords): Finding {
  return {
    id,
    level: m.distance >= limit - EDGE_SLACK ? 'ok' : 'fail',
    place: `${flange.name}, ${m.place}`,
    value: m.distance,
    limit,
    unit: 'mm',
    message: `${words(m.distance, 2)} of metal to the outer edge; ${words(limit, 2)} are wanted.`,
  };
}

/** Least metal between every two neighbouring openings or holes: the thinnest web at each of them. */
export function flangeWebs({ plan, flanges }: CheckContext): Finding[] {
  const limit = plan.flange.web;
  return flanges.flatMap((f) => thinnestAtEach(websOf(f)).map((m) => web(f, m, limit, lengthsIn(plan.units))));
}

/** Of webs in rising order, the first at each place. */
function thinnestAtEach(webs: readonly FlangeMargin[]): FlangeMargin[] {
  const seen = new Set<string>();
  return webs.filter((m) => {
    const fresh = !seen.has(m.place) || !seen.has(m.against);
    seen.add(m.place).add(m.against);
    return fresh;
  });
}

function web(flange: FlangePart, m: FlangeMargin, limit: number, words: LengthWords): Finding {
  return {
    id: 'flange.web',
    level: m.distance >= limit - EDGE_SLACK ? 'ok' : 'fail',
    place: `${flange.name}, ${m.place} and ${m.against}`,
    value: m.distance,
    limit,
    unit: 'mm',
    message: `${words(m.distance, 2)} of metal between them; ${words(limit, 2)} are wanted.`,
  };
}

import { outlineContains } from '../geometry/outline/contains.js';
import { outlineToOutline } from '../geometry/outline/distance.js';
import type { Outline } from '../geometry/outline/outline.js';
import { type LengthWords, lengthsIn, pointWords } from '../params/faults/wording.js';
import type { FlangePart } from '../parts/flange/flange.js';
import { slotMargins } from '../parts/flange/margins.js';
import type { Relief } from '../parts/flange/relief.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';
import { EDGE_SLACK } from './slack.js';

/** Necks and slots against the length asked of them, ties against theirs, windows against the width of their bridges. */
export function flangeRelief({ plan, flanges }: CheckContext): Finding[] {
  const { style } = plan.flange;
  const words = lengthsIn(plan.units);
  return flanges.flatMap((f) => [
    ...f.relief.map((r) => relief(f, r, style.kind === 'necked' ? style.length : 0, words)),
    ...(style.kind === 'slotted' || style.kind === 'bridged'
      ? slotMargins(f).map((m) => tie(f, m.place, m.distance, style.kind === 'slotted' ? style.tie : 0, words))
      : []),
  ]);
}

function relief(
  flange: FlangePart,
  { kind, between: [a, b], length }: Relief,
  asked: number,
  words: LengthWords,
): Finding {
  const place = `${flange.name}, between cylinders ${flange.cylinders[a]} and ${flange.cylinders[b]}`;
  const limit = kind === 'neck' ? asked : 0;
  const holds = length > 0 && length >= limit - EDGE_SLACK;
  return {
    id: 'flange.relief',
    level: holds ? 'ok' : 'warn',
    place,
    value: length,
    limit,
    unit: 'mm',
    message:
      length === 0
        ? `No room for a ${kind} here: ports and bolts stand too near; the plate stays whole.`
        : holds
          ? `The ${kind} is ${words(length, 1)} long.`
          : `The ${kind} is ${words(length, 1)} long; ${words(limit, 1)} were asked, ports and bolts leave no more.`,
  };
}

const tie = (flange: FlangePart, place: string, value: number, limit: number, words: LengthWords): Finding => ({
  id: 'flange.tie',
  level: value >= limit - EDGE_SLACK && value > 0 ? 'ok' : 'fail',
  place: `${flange.name}, ${place}`,
  value,
  limit,
  unit: 'mm',
  message: `${words(value, 2)} of metal to the outer edge${limit > 0 ? `; ${words(limit, 2)} are wanted` : ''}.`,
});

/** Separate flanges of one head against each other: they may not lie over one another. */
export function flangesApart({ plan, flanges }: CheckContext): Finding[] {
  const { style } = plan.flange;
  if (style.kind !== 'separate') return [];
  return flanges.flatMap((a, i) =>
    flanges
      .slice(i + 1)
      .filter((b) => b.head === a.head)
      .map((b) => ({ b, value: gapBetween(a.region.outer, b.region.outer) }))
      .filter(({ value }) => value < NEAR)
      .map(({ b, value }) => apart(a, b, value, style.gap, lengthsIn(plan.units))),
  );
}

/** Flanges further apart than this, mm, are not worth a line. */
const NEAR = 30;

/** Gap between two outlines, mm; 0 or less where they overlap. */
function gapBetween(a: Outline, b: Outline): number {
  const { distance } = outlineToOutline(a, b);
  const inside = (x: Outline, y: Outline): boolean => outlineContains(x, [y.vertices[0]!.x, y.vertices[0]!.y]);
  return inside(a, b) || inside(b, a) ? -distance : distance;
}

const apart = (a: FlangePart, b: FlangePart, value: number, limit: number, words: LengthWords): Finding => ({
  id: 'flange.apart',
  level: value >= limit - EDGE_SLACK && value > 0 ? 'ok' : 'fail',
  place: `${a.name} and ${b.name}`,
  value,
  limit,
  unit: 'mm',
  message:
    value > 0
      ? `${words(value, 2)} between the flanges; ${words(limit, 2)} are wanted.`
      : 'The flanges overlap: less edge width, or one group for both (flange.style.groups).',
});

/** Notches that were not cut. */
export const notches = ({ plan, flanges }: CheckContext): Finding[] =>
  flanges.flatMap((f) =>
    f.notches.map(({ at, outcome }): Finding => {
      const done = outcome === 'cut' || outcome === 'clear';
      return {
        id: 'flange.notch',
        level: done ? 'ok' : 'fail',
        place: `${f.name}, notch at ${pointWords(at, plan.units, 1)}`,
        value: done ? 0 : 1,
        limit: 0,
        unit: 'count',
        message: outcome === 'cut' ? 'Cut.' : outcome === 'clear' ? 'The flange does not reach it.' : `It ${outcome}.`,
      };
    }),
  );

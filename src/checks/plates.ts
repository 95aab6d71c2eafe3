import { type LengthWords, lengthsIn, lengthWords, sizeWords } from '../params/faults/wording.js';
import type { Plan } from '../params/plan.js';
import { edgeMargins, type FlatMargin, flatWebs } from '../parts/plates/flat-margins.js';
import { flatPartsOf } from '../parts/plates/flat-parts.js';
import { type PlatePart, platesOf } from '../parts/plates/plate.js';
import { layOut } from '../parts/plates/sheet.js';
import type { CheckContext } from './context.js';
import type { Finding } from './finding.js';
import { CONTRACTION, EDGE_SLACK } from './slack.js';

/** Plates: metal to the outside, metal between openings and bolts, openings against the outlets that end in them. */
export function plates({ plan }: CheckContext): Finding[] {
  const words = lengthsIn(plan.units);
  return platesOf(unmarked(plan)).flatMap((p) => [
    ...leastEdge('plate.throat-edge', p, edgeMargins(p.flat.region).openings, p.plan.throatEdge, words),
    ...leastEdge('plate.bolt-edge', p, edgeMargins(p.flat.region).holes, p.plan.edge, words),
    ...leastWeb(p, words),
    ...contraction(p),
  ]);
}

/** Marks on the metal do not matter here, and take time to place. */
const unmarked = (plan: Plan): Plan => ({ ...plan, drawing: { ...plan.drawing, engrave: false } });

const thinnest = (margins: readonly FlatMargin[]): FlatMargin =>
  margins.reduce((a, b) => (b.distance < a.distance ? b : a));

function leastEdge(
  id: string,
  { plan }: PlatePart,
  margins: readonly FlatMargin[],
  limit: number,
  words: LengthWords,
): Finding[] {
  if (margins.length === 0 || limit === 0) return [];
  return [metal(id, plan.name, thinnest(margins), limit, words)];
}

function leastWeb({ plan, flat }: PlatePart, words: LengthWords): Finding[] {
  const webs = flatWebs(flat.region);
  if (webs.length === 0) return [];
  // The web of a divided throat is measured on the part it meets and not ours to choose.
  const divider =
    'throat' in plan.pattern && plan.pattern.throat.kind === 'divided' ? plan.pattern.throat.web : plan.web;
  const isDivider = (m: FlatMargin): boolean => m.place.endsWith('opening') && m.against.endsWith('opening');
  const least = (m: FlatMargin): number => (isDivider(m) ? Math.min(plan.web, divider) : plan.web);
  const worst = webs.reduce((a, b) => (b.distance - least(b) < a.distance - least(a) ? b : a));
  return [metal('plate.web', plan.name, worst, least(worst), words)];
}

function metal(id: string, name: string, m: FlatMargin, limit: number, words: LengthWords): Finding {
  return {
    id,
    level: m.distance >= limit - EDGE_SLACK ? 'ok' : 'fail',
    place: `plate ${name}, ${m.place} and ${m.against}`,
    value: m.distance,
    limit,
    unit: 'mm',
    message: `${words(m.distance, 2)} of metal between ${m.place} and ${m.against}; ${words(limit, 2)} are wanted.`,
  };
}

function contraction({ plan, openArea, outletArea }: PlatePart): Finding[] {
  if (outletArea === null) return [];
  const ratio = openArea / outletArea;
  const percent = `${(100 * ratio).toFixed(1)} % of the bore of ${plan.feeds.join(' and ')}`;
  return [
    {
      id: 'plate.area',
      level: ratio >= CONTRACTION ? 'ok' : 'warn',
      place: `plate ${plan.name}`,
      value: ratio,
      limit: CONTRACTION,
      unit: 'ratio',
      message:
        ratio >= CONTRACTION
          ? `Its opening has ${percent}.`
          : `Its opening has only ${percent}: a contraction. A larger opening or a smaller outlet keeps the area.`,
    },
  ];
}

/** Every flat part against the sheet it is to be cut from. */
export function sheetFit({ plan, flanges }: CheckContext): Finding[] {
  const { sheet } = plan.drawing;
  if (sheet === null) return [];
  const { all } = flatPartsOf(unmarked(plan), flanges);
  const { tooBig } = layOut(all, sheet);
  const sides = [...sheet.size].sort((a, b) => a - b).map((s) => s - 2 * sheet.margin);
  return all.map((part) => {
    const fits = !tooBig.includes(part);
    const over = Math.max(...[...part.size].sort((a, b) => a - b).map((s, i) => s - sides[i]!));
    const size = sizeWords(part.size, plan.units, 1);
    const room = sizeWords(sheet.size, plan.units, 0);
    return {
      id: 'sheet.fit',
      level: fits ? 'ok' : 'warn',
      place: part.name,
      value: fits ? 0 : Math.max(0, over),
      limit: 0,
      unit: 'mm',
      message: fits
        ? `${size} fits the sheet.`
        : `${size} does not fit the sheet of ${room} with margins of ${lengthWords(sheet.margin, plan.units, 1)}: it is on no sheet drawing. Take a larger sheet (drawing.sheet.size).`,
    };
  });
}

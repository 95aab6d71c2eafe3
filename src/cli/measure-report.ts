import pc from 'picocolors';
import { CAUTIONS } from '../export/cautions.js';
import { degrees } from '../geometry/angle.js';
import { length, type Vec3 } from '../geometry/vec3.js';
import type { Plan } from '../params/plan.js';
import { either } from '../params/wording.js';
import type { SpreadFound, TubeFound } from '../parts/as-built/as-built-report.js';
import type { Deviation } from '../parts/as-built/deviation.js';
import { type Change, DRAWN_IN, type Mend, type Way } from '../parts/as-built/mend.js';
import { signed, textTable } from './text-table.js';

/** How many differences of a tube are told; the worst come first. */
const TOLD = 4;

/** A difference that moves the end less than this is not told, mm. */
const SMALL = 0.05;

/** What the measurements of built tubes say, for people. */
export function measureText(plan: Plan, groups: readonly SpreadFound[]): string {
  const missing =
    plan.secondaries !== null && groups.length === 1
      ? [`The ${groups[0]!.of === 'primaries' ? 'secondaries' : 'primaries'} are not measured.`, '']
      : [];
  const lines = [
    pc.bold(plan.name),
    ...groups.flatMap((g) => groupLines(g)),
    ...missing,
    ...(groups.some((g) => g.mends.length > 0) ? CAUTIONS.map((c) => pc.dim(`Caution: ${c}`)) : []),
  ];
  return `${lines.join('\n').trimEnd()}\n`;
}

const mm = (x: number): string => `${x.toFixed(2)} mm`;

function groupLines(g: SpreadFound): string[] {
  const rows = g.tubes.map((t) => [
    t.tube.name,
    t.measured.kind,
    mm(t.length),
    `+-${mm(t.uncertainty)}`,
    `${signed(t.length - t.tube.target)} mm`,
    `${signed(t.length - t.tube.length)} mm`,
  ]);
  return [
    verdictLine(g),
    '',
    ...textTable([['tube', 'measured by', 'true length', 'give or take', 'off target', 'off route'], ...rows]),
    '',
    ...g.tubes.flatMap(deviationLines),
    ...mendLines(g),
    '',
  ];
}

function verdictLine(g: SpreadFound): string {
  const spread = `True spread of the ${g.of} ${mm(g.spread)} +-${mm(g.uncertainty)}, ${mm(g.tolerance)} allowed`;
  if (g.verdict === 'inside') return pc.green(`${spread}: within tolerance.`);
  if (g.verdict === 'outside') return pc.red(`${spread}: out of tolerance.`);
  const reasons = [
    ...(g.unmeasured.length > 0 ? [`${either(g.unmeasured, 'and')} not measured`] : []),
    ...(g.spread + g.uncertainty > g.tolerance ? ['the measurements are too coarse: measure again, more closely'] : []),
  ];
  return pc.yellow(`${spread}: cannot tell; ${reasons.join('; ')}.`);
}

function deviationLines({ tube, deviations }: TubeFound): string[] {
  const told = deviations.filter((d) => d.effect >= SMALL).slice(0, TOLD);
  if (told.length === 0) return [];
  return [`${tube.name} differs from its route, worst first:`, ...told.map((d) => `  - ${deviationWords(d)}`), ''];
}

function deviationWords(d: Deviation): string {
  const end = `moves the end ${mm(d.effect)}`;
  const of = d.piece && d.place !== `piece ${d.piece}` ? `${d.place} (${d.piece})` : d.place;
  if (d.kind === 'length') {
    const mend = d.joint ? `; joint ${d.joint}` : '';
    return `${of} is ${mm(Math.abs(d.off))} ${d.off > 0 ? 'longer' : 'shorter'} than planned${mend}: ${end}`;
  }
  const off = `${Math.abs(degrees(d.off)).toFixed(2)} deg`;
  if (d.kind === 'angle') return `${of} is bent ${off} ${d.off > 0 ? 'more' : 'less'} than planned: ${end}`;
  const back = d.off > 0 ? 'counter-clockwise' : 'clockwise';
  return `at ${d.joint ?? of} turn what follows ${off} ${back}, looking along the flow: ${end}`;
}

function mendLines(g: SpreadFound): string[] {
  if (g.aim === null) return [];
  const { from, to } = g.aim;
  const aim = to - from < 0.005 ? `to ${mm(from)}` : `between ${mm(from)} and ${mm(to)}`;
  return [pc.bold(`To bring all ${aim} with the least work:`), ...g.mends.flatMap(tubeMend)];
}

function tubeMend({ built, by, ways }: Mend): string[] {
  const what = `${built.tube.name}: ${mm(Math.abs(by))} ${by < 0 ? 'shorter' : 'longer'}`;
  if (ways.length === 0) return [`- ${what}: no straight has the room; make its longest piece anew`];
  const [advised, ...others] = ways;
  return [`- ${what}: ${wayWords(advised!)}`, ...others.map((w) => `    or ${wayWords(w)}`)];
}

function wayWords({ changes, shift }: Way): string {
  return `${changes.map(changeWords).join(', and ')}. ${shiftWords(shift)}`;
}

function changeWords({ straight, by }: Change): string {
  const { index, joint, joints, pieces } = straight;
  const others = joints.filter((j) => j !== joint);
  const also = others.length > 0 ? ` (or ${either(others)})` : '';
  const what = by < 0 ? `cut ${mm(-by)} off` : `let ${mm(by)} into`;
  return `open ${joint ?? 'it'}${also} and ${what} straight ${index + 1} (${either(pieces, 'and')})`;
}

function shiftWords(shift: Vec3): string {
  const by = length(shift);
  if (by < 0.01) return 'The end stays on the collector inlet.';
  const way = `x ${signed(shift[0])}, y ${signed(shift[1])}, z ${signed(shift[2])} mm`;
  const mend =
    by <= DRAWN_IN ? 'little enough to draw in at the tack' : 'move the collector or pull the tube to meet it';
  return `The end then stands ${mm(by)} off the collector inlet (${way}): ${mend}.`;
}

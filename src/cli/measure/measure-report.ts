import pc from 'picocolors';
import { CAUTIONS } from '../../export/cautions.js';
import { degrees } from '../../geometry/angle.js';
import { length, type Vec3 } from '../../geometry/vec3.js';
import { either, lengthWords } from '../../params/faults/wording.js';
import type { Plan } from '../../params/plan.js';
import type { LengthUnit } from '../../params/units.js';
import type { SpreadFound, TubeFound } from '../../parts/as-built/as-built-report.js';
import type { Deviation } from '../../parts/as-built/deviation.js';
import { type Change, DRAWN_IN, type Mend, type Way } from '../../parts/as-built/mend.js';
import { signedWords, textTable } from '../report/text-table.js';

/** How many differences of a tube are told; the worst come first. */
const TOLD = 4;

/** A difference that moves the end less than this is not told, mm. */
const SMALL = 0.05;

/** Lengths as the plan's unit says them. */
type Words = (mm: number) => string;

/** What the measurements of built tubes say, for people. */
export function measureText(plan: Plan, groups: readonly SpreadFound[]): string {
  const missing =
    plan.secondaries !== null && groups.length === 1
      ? [`The ${groups[0]!.of === 'primaries' ? 'secondaries' : 'primaries'} are not measured.`, '']
      : [];
  const lines = [
    pc.bold(plan.name),
    ...groups.flatMap((g) => groupLines(g, plan.units)),
    ...missing,
    ...(groups.some((g) => g.mends.length > 0) ? CAUTIONS.map((c) => pc.dim(`Caution: ${c}`)) : []),
  ];
  return `${lines.join('\n').trimEnd()}\n`;
}

function groupLines(g: SpreadFound, units: LengthUnit): string[] {
  const words: Words = (x) => lengthWords(x, units, 2);
  const rows = g.tubes.map((t) => [
    t.tube.name,
    t.measured.kind,
    words(t.length),
    `+-${words(t.uncertainty)}`,
    signedWords(t.length - t.tube.target, units),
    signedWords(t.length - t.tube.length, units),
  ]);
  return [
    verdictLine(g, words),
    '',
    ...textTable([['tube', 'measured by', 'true length', 'give or take', 'off target', 'off route'], ...rows]),
    '',
    ...g.tubes.flatMap((t) => deviationLines(t, words)),
    ...mendLines(g, words, units),
    '',
  ];
}

function verdictLine(g: SpreadFound, words: Words): string {
  const spread = `True spread of the ${g.of} ${words(g.spread)} +-${words(g.uncertainty)}, ${words(g.tolerance)} allowed`;
  if (g.verdict === 'inside') return pc.green(`${spread}: within tolerance.`);
  if (g.verdict === 'outside') return pc.red(`${spread}: out of tolerance.`);
  const reasons = [
    ...(g.unmeasured.length > 0 ? [`${either(g.unmeasured, 'and')} not measured`] : []),
    ...(g.spread + g.uncertainty > g.tolerance ? ['the measurements are too coarse: measure again, more closely'] : []),
  ];
  return pc.yellow(`${spread}: cannot tell; ${reasons.join('; ')}.`);
}

function deviationLines({ tube, deviations }: TubeFound, words: Words): string[] {
  const told = deviations.filter((d) => d.effect >= SMALL).slice(0, TOLD);
  if (told.length === 0) return [];
  return [
    `${tube.name} differs from its route, worst first:`,
    ...told.map((d) => `  - ${deviationWords(d, words)}`),
    '',
  ];
}

function deviationWords(d: Deviation, words: Words): string {
  const end = `moves the end ${words(d.effect)}`;
  const of = d.piece && d.place !== `piece ${d.piece}` ? `${d.place} (${d.piece})` : d.place;
  if (d.kind === 'length') {
    const mend = d.joint ? `; joint ${d.joint}` : '';
    return `${of} is ${words(Math.abs(d.off))} ${d.off > 0 ? 'longer' : 'shorter'} than planned${mend}: ${end}`;
  }
  const off = `${Math.abs(degrees(d.off)).toFixed(2)} deg`;
  if (d.kind === 'angle') return `${of} is bent ${off} ${d.off > 0 ? 'more' : 'less'} than planned: ${end}`;
  const back = d.off > 0 ? 'counter-clockwise' : 'clockwise';
  return `at ${d.joint ?? of} turn what follows ${off} ${back}, looking along the flow: ${end}`;
}

function mendLines(g: SpreadFound, words: Words, units: LengthUnit): string[] {
  if (g.aim === null) return [];
  const { from, to } = g.aim;
  const aim = to - from < 0.005 ? `to ${words(from)}` : `between ${words(from)} and ${words(to)}`;
  return [pc.bold(`To bring all ${aim} with the least work:`), ...g.mends.flatMap((m) => tubeMend(m, words, units))];
}

function tubeMend({ built, by, ways }: Mend, words: Words, units: LengthUnit): string[] {
  const what = `${built.tube.name}: ${words(Math.abs(by))} ${by < 0 ? 'shorter' : 'longer'}`;
  if (ways.length === 0) return [`- ${what}: no straight has the room; make its longest piece anew`];
  const [advised, ...others] = ways;
  return [
    `- ${what}: ${wayWords(advised!, words, units)}`,
    ...others.map((w) => `    or ${wayWords(w, words, units)}`),
  ];
}

function wayWords({ changes, shift }: Way, words: Words, units: LengthUnit): string {
  return `${changes.map((c) => changeWords(c, words)).join(', and ')}. ${shiftWords(shift, words, units)}`;
}

function changeWords({ straight, by }: Change, words: Words): string {
  const { index, joint, joints, pieces } = straight;
  const others = joints.filter((j) => j !== joint);
  const also = others.length > 0 ? ` (or ${either(others)})` : '';
  const what = by < 0 ? `cut ${words(-by)} off` : `let ${words(by)} into`;
  return `open ${joint ?? 'it'}${also} and ${what} straight ${index + 1} (${either(pieces, 'and')})`;
}

function shiftWords(shift: Vec3, words: Words, units: LengthUnit): string {
  const by = length(shift);
  if (by < 0.01) return 'The end stays on the collector inlet.';
  const [x, y, z] = shift.map((v) => signedWords(v, units));
  const way = `x ${x}, y ${y}, z ${z}`;
  const mend =
    by <= DRAWN_IN ? 'little enough to draw in at the tack' : 'move the collector or pull the tube to meet it';
  return `The end then stands ${words(by)} off the collector inlet (${way}): ${mend}.`;
}

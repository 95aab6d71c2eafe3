import type { Plan } from '../../params/plan.js';
import { boreOf, type TubeOnOffer } from '../../tuning/formulas/nearest-tube.js';
import type { RuleInput } from '../../tuning/formulas/rule.js';
import type { Reckoned, TuningTable } from '../../tuning/formulas/tuning-table.js';
import type { SpeedBand } from '../../tuning/formulas/wave-return.js';
import { LAW_CAUTION } from '../cautions.js';
import { areaFigure, lengthFigure, speedFigure, spreadFigure } from './figures.js';
import { list, type Page, type PageBlock, pageTable, paragraph, section } from './page.js';
import { rulesPlot } from './rules-plot.js';

/** What rules of thumb are for. */
export const RULES_CAUTION =
  'These are rules for choosing a first prototype. They know nothing of the collector, the mufflers or the neighbouring cylinders and disagree with each other, as the spread shows; the dynamometer and the engine builder decide.';

/** The published rules side by side, in the plan's units. */
export function rulesPage(plan: Plan, table: TuningTable): Page {
  const { inputs: t } = table;
  const { units } = plan;
  const length = (mm: number): string => lengthFigure(mm, units);
  return {
    id: 'tuning-rules',
    title: 'Tuning by published rules',
    blocks: [
      ...section(
        'Primary length',
        paragraph(
          `For ${t.rpm} rev/min. The rules count from the valve; the plan counts from the head face. ${length(t.portLength)} of port in the head are taken off.`,
        ),
        pageTable(
          ['<rule', 'from the valve', 'from the head face', '<formula'],
          table.lengths.map((l) => [
            `${l.title}${l.chosen ? ' (chosen)' : ''}`,
            length(l.value),
            length(l.fromFace),
            l.formula,
          ]),
        ),
        paragraph(`From the head face: ${spreadFigure(table.lengthSpread, length)}.`),
        { kind: 'plot', file: 'tuning/lengths.svg', plot: rulesPlot(plan, t) },
        paragraph(
          `In a plan these rules are called ${table.lengths.map((l) => l.name).join(', ')}: name one under tuning.rule and set runners.length to tuned.`,
        ),
      ),
      ...timingBlocks(plan, table),
      ...boreBlocks(plan, table),
      ...stepBlocks(plan, table),
      ...sizes('4-2-1', table.split, length),
      ...sizes('Collector and tailpipe', table.collector, length),
      ...section(
        'Where each figure comes from',
        paragraph(`Reckoned from: ${inputsOf(plan, table)}.`),
        list(sourcesOf(table)),
      ),
      paragraph(`${RULES_CAUTION} ${LAW_CAUTION}`),
    ],
  };
}

function timingBlocks({ units }: Plan, { timing, inputs: t }: TuningTable): PageBlock[] {
  const { first, second, wanted, bands } = timing;
  const degrees = (x: number): string => `${x.toFixed(0)} deg`;
  const words = (b: SpeedBand): string => `from ${b.from.toFixed(0)} to ${b.to.toFixed(0)} rev/min`;
  const speeds =
    bands === null
      ? 'The valves do not overlap, so there is nothing for it to fall into.'
      : `The first falls into the overlap ${words(bands[0])}, the second ${words(bands[1])}.`;
  return section(
    `Waves of a primary of ${lengthFigure(timing.fromFace, units)}`,
    paragraph(
      `At ${t.rpm} rev/min the front of the first rarefaction is back at the valve ${degrees(first)} of crank after the valve opens, that of the second after ${degrees(second)}; the middle of the overlap comes after ${degrees(wanted)}. ${speeds}`,
    ),
  );
}

function boreBlocks(plan: Plan, table: TuningTable): PageBlock[] {
  const { units, tube } = plan;
  const length = (mm: number): string => lengthFigure(mm, units);
  const named = (t: TubeOnOffer | null, where: string): string =>
    t === null ? `none ${where}` : `${length(t.od)} x ${length(t.wall)} (${t.name}), bore ${length(boreOf(t))}`;
  return [
    ...sizes('Primary bore', table.bores, length),
    paragraph(
      `Bores that are aims: ${spreadFigure(table.boreSpread, length)}. Nearest tubes to the median: ${named(table.tubes.below, 'below')}; ${named(table.tubes.above, 'above')}. The plan has ${length(tube.od)} x ${length(tube.wall)}, bore ${length(table.inputs.tubeBore)}: a mean gas speed of ${speedFigure(table.gasSpeed, units)}.`,
    ),
  ];
}

function stepBlocks({ units }: Plan, { steps, inputs: t }: TuningTable): PageBlock[] {
  const length = (mm: number): string => lengthFigure(mm, units);
  return section(
    'Steps, a proposal',
    pageTable(
      [
        '<primary with',
        'from the head face',
        'outside diameter from there',
        'wave thrown back',
        'as the full length at',
      ],
      steps.flatMap((all) =>
        all.map((s) => [
          all.length === 1 ? 'one step' : `${all.length} steps`,
          length(s.at),
          length(s.od),
          `${(100 * s.reflection).toFixed(0)} %`,
          `${(t.rpm * s.speedRatio).toFixed(0)} rev/min`,
        ]),
      ),
    ),
    paragraph(
      'Even parts of the length, each an eighth of an inch larger: common practice, no source. A step throws a small rarefaction back; it does at a higher engine speed what the open end does for the full length, so steps spread the effect and weaken it. Put them under tube.steps with bends you can get; a contraction raises pressure and temperature.',
    ),
  );
}

const sizes = (title: string, all: readonly Reckoned[], length: (mm: number) => string): PageBlock[] =>
  section(
    title,
    pageTable(
      ['<rule', 'result', '<formula'],
      all.map((r) => [r.title, `${r.bound === null ? '' : `${r.bound} `}${length(r.value)}`, r.formula]),
    ),
  );

/** What the figures are reckoned from, each once. */
function inputsOf(plan: Plan, table: TuningTable): string {
  const all = allOf(table).flatMap((r) => r.inputs.map((i) => inputWords(plan, i)));
  return [...new Set(all)].join('; ');
}

const allOf = (table: TuningTable): Reckoned[] => [
  ...table.lengths,
  ...table.bores,
  ...table.split,
  ...table.collector,
];

/** One sentence for every source and doubt, with the figures that share them. */
function sourcesOf(table: TuningTable): string[] {
  const groups = new Map<string, string[]>();
  for (const r of allOf(table)) {
    const key = `Source: ${r.source}. Doubt: ${r.doubt}.`;
    groups.set(key, [...(groups.get(key) ?? []), r.title]);
  }
  return [...groups].map(([words, titles]) => `${titles.join('; ')}. ${words}`);
}

/** 'engine speed 6500 rev/min', in the plan's units. */
export function inputWords({ units }: Plan, { name, value, unit }: RuleInput): string {
  switch (unit) {
    case 'mm':
      return `${name} ${lengthFigure(value, units)}`;
    case 'mm2':
      return `${name} ${areaFigure(value, units)}`;
    case 'm/s':
      return `${name} ${speedFigure(value, units)}`;
    case 'C':
      return `${name} ${value.toFixed(0)} C`;
    default:
      return `${name} ${value.toFixed(unit === 'cm3' ? 1 : 0)} ${unit}`.trimEnd();
  }
}

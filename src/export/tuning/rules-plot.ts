import type { Plan } from '../../params/plan.js';
import { inches } from '../../params/units.js';
import { LENGTH_RULE_LIST } from '../../tuning/formulas/length-rules.js';
import type { TuningInputs } from '../../tuning/formulas/tuning-inputs.js';
import type { LinePlot } from './line-plot.js';

/** How far below and above the engine speed the plot reaches, and how many points a line has. */
const FROM = 0.6;
const TO = 1.3;
const POINTS = 40;

/** Length from the head face by every rule over engine speed, in the plan's unit, with the plan's own length. */
export function rulesPlot({ units, runners }: Plan, t: TuningInputs): LinePlot {
  const shown = (mm: number): number => (units === 'in' ? inches(mm) : mm);
  const speeds = Array.from({ length: POINTS + 1 }, (_, i) => t.rpm * (FROM + ((TO - FROM) * i) / POINTS));
  return {
    title: 'Primary length by each rule',
    x: { label: 'Engine speed', unit: 'rev/min' },
    y: { label: 'Length from the head face', unit: units, include: [0] },
    lines: LENGTH_RULE_LIST.map((rule) => ({
      label: rule.title,
      points: speeds.map((rpm) => [rpm, shown(rule.fromValve({ ...t, rpm }) - t.portLength)] as const),
    })),
    levels: [{ at: shown(runners.length), label: 'the plan' }],
  };
}

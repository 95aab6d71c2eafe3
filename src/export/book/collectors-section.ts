import { pointWords } from '../../params/faults/wording.js';
import { inches } from '../../params/units.js';
import type { Collector } from '../../parts/collector/collector.js';
import type { Fact } from '../../parts/collector/fact.js';
import { collectorFacts } from '../../parts/collector/facts.js';
import { fixed, type Units } from '../sheets/sheet-numbers.js';
import type { Summary } from '../summary/summary-schema.js';
import type { BookInput } from './book-input.js';
import type { BookSection } from './book-section.js';
import { collectorFigure } from './collector-figure.js';
import { type Html, html } from './html.js';
import { paragraph, section, subheading } from './section.js';

/** Every collector drawn and in numbers, and what arrives at its inlets. */
export const collectorsSection = ({ plan, summary, collectors }: BookInput): BookSection =>
  section(
    'collectors',
    collectors.length === 1 ? 'Collector' : 'Collectors',
    collectors.map((c) => collectorPart(c, summary, plan.units)),
    paragraph(
      'The printed collector and its aids are for mock-up only: never weld on plastic or run the engine with it.',
    ),
  );

function collectorPart(collector: Collector, summary: Summary, units: Units): Html {
  const { name } = collector.plan;
  const told = summary.collectors.find((c) => c.name === name);
  const arriving = [
    ...summary.primaries.map((p) => ({ ...p, tube: `cylinder ${p.cylinder}` })),
    ...summary.secondaries.map((s) => ({ ...s, tube: `secondary from ${s.from}` })),
  ]
    .filter((t) => t.collector === name)
    .sort((a, b) => a.inlet - b.inlet);
  return html`${subheading(name)}${paragraph(
    `Inlets in order: ${arriving.map((t) => `${t.inlet} ${t.tube}`).join('; ')}.${told ? ` Centre of the inlet plane at ${pointWords(told.at_mm, units, 1)}.` : ''}`,
  )}${collectorFigure(
    collector,
    collector.geometry.cuts.map((_, i) => shortName(arriving.find((t) => t.inlet === i + 1)?.tube ?? '')),
    units,
  )}<dl class="facts">${collectorFacts(collector).map((f) => factRow(f, units))}</dl>
${collector.notes.map((note) => paragraph(note))}`;
}

/** What fits into a drawn inlet: 'cyl 3', 'front'. */
function shortName(tube: string): string {
  const short = tube.replace('cylinder', 'cyl').replace('secondary from ', '');
  return short.length < 9 ? short : '';
}

function factRow({ label, value, unit, digits }: Fact, units: Units): Html {
  const shown = unit === 'mm2' ? 'mm²' : unit === 'cm3' ? 'cm³' : unit === 'deg' ? '°' : unit;
  const inch =
    unit === 'mm' && units === 'in' ? html` <span class="inch">${fixed(inches(value), digits + 2)} in</span>` : null;
  return html`<div><dt>${label}</dt><dd>${fixed(value, digits)}${shown === '' ? null : html` <span class="unit">${shown}</span>`}${inch}</dd></div>`;
}

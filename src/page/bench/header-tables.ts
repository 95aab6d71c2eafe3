import type { BenchHeader, BenchTube } from '../../export/book/bench-data.js';
import type { SceneGap } from '../../export/book/scene-data.js';
import { button, element } from '../view/element.js';
import { shownLength } from '../view/shown-number.js';

/** What can be done from the tables. */
export interface TableActions {
  readonly select: (tube: string) => void;
  readonly take: (tube: BenchTube) => void;
  readonly showGap: (gap: SceneGap) => void;
}

const cell = (text: string, className?: string): HTMLTableCellElement => element('td', { class: className }, text);

/** The equal-length table: every tube against its target. */
export function lengthTable(header: BenchHeader, selected: string | null, act: TableActions): HTMLElement {
  const head = ['Tube', 'Length', 'Off target', 'Bends', 'Least gap', 'Route'];
  return element(
    'table',
    { class: 'lengths' },
    element('caption', { class: 'aside' }, 'Centreline lengths, head face to collector inlet plane, mm'),
    element('thead', {}, element('tr', {}, ...head.map((h) => element('th', { scope: 'col' }, h)))),
    element('tbody', {}, ...header.tubes.map((t) => tubeRow(t, t.id === selected, header.tolerance, act))),
  );
}

function tubeRow(t: BenchTube, isSelected: boolean, tolerance: number, act: TableActions): HTMLTableRowElement {
  const off = t.length - t.target;
  const isOff = Math.abs(off) > tolerance;
  const pick = button(t.cylinder === null ? t.name : `Cylinder ${t.cylinder}`, () => act.select(t.id), {
    'aria-pressed': String(isSelected),
    class: 'plain',
  });
  const take =
    t.cylinder === null
      ? element('span', { class: 'aside' }, 'searched')
      : t.byHand
        ? element('span', {}, 'by hand')
        : button('Take by hand', () => act.take(t), {
            class: 'small',
            'aria-label': `Take by hand: the route of cylinder ${t.cylinder}, to drag its points`,
          });
  return element(
    'tr',
    { 'data-tube': t.id, class: isSelected ? 'is-lit' : undefined },
    element('th', { scope: 'row' }, pick, element('span', { class: 'aside' }, ` inlet ${t.inlet}`)),
    cell(t.length.toFixed(2), 'figure'),
    cell(
      `${isOff ? '\u26a0 ' : ''}${off < -5e-4 ? '\u2212' : '+'}${Math.abs(off).toFixed(3)}`,
      isOff ? 'figure bad' : 'figure',
    ),
    cell(String(t.bends), 'figure'),
    cell(t.gap === null ? '\u2013' : t.gap.toFixed(1), 'figure'),
    element('td', {}, take),
  );
}

/** How many of the closest places are listed. */
const CLOSEST = 8;

/** The closest places, those that are shortest of their limit first. */
export function gapTable({ scene }: BenchHeader, act: TableActions): HTMLElement {
  const sorted = [...scene.gaps]
    .filter((g) => g.kind !== 'run-in')
    .sort((a, b) => a.value - a.limit - (b.value - b.limit));
  const rows = sorted.slice(0, CLOSEST).map((g) => {
    const isShort = g.value < g.limit - 0.01;
    const between =
      g.tubes.length === 2 ? button(g.place, () => act.showGap(g), { class: 'plain' }) : element('span', {}, g.place);
    return element(
      'tr',
      {},
      element('th', { scope: 'row' }, between),
      cell(`${isShort ? '\u26a0 ' : ''}${g.value.toFixed(2)}`, isShort ? 'figure bad' : 'figure'),
      cell(g.limit.toFixed(2), 'figure'),
    );
  });
  return element(
    'table',
    { class: 'gaps' },
    element('caption', { class: 'aside' }, `The ${rows.length} tightest of ${scene.gaps.length} gaps, mm`),
    element(
      'thead',
      {},
      element('tr', {}, ...['Between', 'Gap', 'Wanted'].map((h) => element('th', { scope: 'col' }, h))),
    ),
    element('tbody', {}, ...rows),
  );
}

/** The spread as one large figure, the verdict under it. */
export function verdict(header: BenchHeader): HTMLElement {
  const isOver = header.spread > header.tolerance;
  return element(
    'div',
    { class: 'verdict' },
    element('p', { class: isOver ? 'large bad' : 'large good' }, shownLength(header.spread, 'mm', 3)),
    element('p', { class: 'aside' }, `spread, of ${shownLength(header.tolerance, 'mm', 3)} allowed`),
    element('p', { class: header.passed ? 'good' : 'bad' }, `${header.passed ? '\u2713' : '\u2717'} ${header.verdict}`),
  );
}

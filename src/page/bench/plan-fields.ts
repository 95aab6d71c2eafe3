import type { Editable, PlanEdit } from '../../export/book/bench-data.js';
import type { Triple } from '../../export/book/scene-data.js';

/** One number of the plan that can be changed: mm or rad inside, the plan's unit or degrees in the page. */
export interface PlanField {
  /** The same for the same number of the plan as long as the plan has its parts. */
  readonly id: string;
  readonly group: string;
  readonly label: string;
  readonly of: 'length' | 'angle' | 'number';
  readonly value: number;
  readonly edit: (value: number) => PlanEdit;
}

const AXES = ['x', 'y', 'z'] as const;

/** Every number of a plan that can be changed, in groups, in the order they are shown. */
export function planFields(e: Editable): PlanField[] {
  const { length, secondaries } = e;
  return [
    ...(length === null ? [] : [runner('length', 'Length of the primaries', length)]),
    runner('spread', 'Spread allowed', e.spread),
    runner('clearance', 'Clearance between tubes', e.clearance),
    ...(secondaries ? [secondary('length', 'Length of the secondaries', secondaries.length)] : []),
    ...e.clr.flatMap((value, bend): PlanField[] =>
      value === null
        ? []
        : [
            {
              id: `clr ${bend}`,
              group: 'Tubes',
              label: e.clr.length > 1 ? `CLR of bend ${bend + 1}` : 'CLR of the bends',
              of: 'length',
              value,
              edit: (v) => ({ edit: 'tube-clr', bend, value: v }),
            },
          ],
    ),
    ...e.collectors.flatMap((c, collector) => collectorFields(c, collector, e.collectors.length > 1)),
    ...e.keepOuts.flatMap(({ name, kind, at }, keepOut) =>
      triple(`Keep-out ${name}`, HELD[kind], at, 'length', `keep-out ${keepOut}`, (to) => ({
        edit: 'keep-out-at',
        keepOut,
        at: to,
      })),
    ),
    ...e.routes.flatMap(({ cylinder, points }) =>
      points.slice(1, -1).flatMap((p, i) =>
        triple(`Route of cylinder ${cylinder}`, `Point ${i + 1}`, p, 'length', `route ${cylinder} ${i + 1}`, (at) => ({
          edit: 'route-point',
          cylinder,
          point: i + 1,
          at,
        })),
      ),
    ),
  ];
}

/** What a keep-out is moved by. */
const HELD: Readonly<Record<Editable['keepOuts'][number]['kind'], string>> = {
  box: 'Lowest corner',
  cylinder: 'First end',
  capsule: 'First end',
  'half-space': 'Point of the plane',
  mesh: 'Origin',
};

const runner = (field: 'length' | 'spread' | 'clearance', label: string, value: number): PlanField => ({
  id: `runners ${field}`,
  group: 'Tubes',
  label,
  of: 'length',
  value,
  edit: (v) => ({ edit: 'runners', field, value: v }),
});

const secondary = (field: 'length', label: string, value: number): PlanField => ({
  id: `secondaries ${field}`,
  group: 'Tubes',
  label,
  of: 'length',
  value,
  edit: (v) => ({ edit: 'secondaries', field, value: v }),
});

function collectorFields(c: Editable['collectors'][number], collector: number, isOneOfMany: boolean): PlanField[] {
  const group = isOneOfMany ? `Collector ${c.name}` : 'Collector';
  const id = `collector ${collector}`;
  return [
    ...triple(group, 'Inlet plane', c.at, 'length', `${id} at`, (at) => ({ edit: 'collector-at', collector, at })),
    ...triple(group, 'Direction', c.direction, 'number', `${id} direction`, (direction) => ({
      edit: 'collector-direction',
      collector,
      direction,
    })),
    {
      id: `${id} clocking`,
      group,
      label: 'Clocking',
      of: 'angle',
      value: c.clocking,
      edit: (value) => ({ edit: 'collector-angle', collector, field: 'clocking', value }),
    },
    {
      id: `${id} gap`,
      group,
      label: 'Gap between inlets',
      of: 'length',
      value: c.gap,
      edit: (value) => ({ edit: 'collector-gap', collector, value }),
    },
    {
      id: `${id} merge`,
      group,
      label: 'Merge half-angle',
      of: 'angle',
      value: c.mergeHalfAngle,
      edit: (value) => ({ edit: 'collector-angle', collector, field: 'merge_half_angle', value }),
    },
  ];
}

/** Three coordinates, each a field of its own that keeps the other two. */
const triple = (
  group: string,
  label: string,
  at: Triple,
  of: PlanField['of'],
  id: string,
  edit: (at: [number, number, number]) => PlanEdit,
): PlanField[] =>
  AXES.map((axis, i) => ({
    id: `${id} ${axis}`,
    group,
    label: `${label} ${axis}`,
    of,
    value: at[i]!,
    edit: (value) => edit(at.map((v, k) => (k === i ? value : v)) as [number, number, number]),
  }));

/** A number of the plan as the page shows it, and back. */
export function shownValue({ of, value }: PlanField, units: 'mm' | 'in'): string {
  const shown = value / unitOf(of, units);
  return String(Number(shown.toFixed(of === 'length' && units === 'mm' ? 3 : of === 'angle' ? 2 : 5)) + 0);
}

/** Null where the text is no number. */
export function readValue(text: string, of: PlanField['of'], units: 'mm' | 'in'): number | null {
  const number = Number(text.trim().replace(',', '.'));
  return text.trim() === '' || !Number.isFinite(number) ? null : number * unitOf(of, units);
}

const unitOf = (of: PlanField['of'], units: 'mm' | 'in'): number =>
  of === 'angle' ? Math.PI / 180 : of === 'length' && units === 'in' ? 25.4 : 1;

/** The unit behind a field. */
export const unitWord = (of: PlanField['of'], units: 'mm' | 'in'): string =>
  of === 'angle' ? 'deg' : of === 'length' ? units : '';

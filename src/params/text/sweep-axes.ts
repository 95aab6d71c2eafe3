import { isScalar, parseDocument } from 'yaml';
import { MOST_DESIGNS, MOST_SWEPT_VALUES } from '../limits.js';

/** One field of a plan and the values it takes in a sweep. */
export interface SweepAxis {
  /** As in the plan: `runners.length`, `collector.at.1`, `tube.bends.0.clr`. */
  readonly field: string;
  /** Plain numbers in the plan's unit, or words of the plan such as "1.75 in". */
  readonly values: readonly (number | string)[];
}

/**
 * An axis from `FIELD=FROM:TO:STEP` (both ends belong to it) or `FIELD=VALUE,VALUE,...`. Values of a range are counted from its
 * start, so that rounding does not add up. Throws RangeError with what is wrong and what is allowed.
 */
export function sweepAxis(text: string): SweepAxis {
  const split = text.indexOf('=');
  const [field, given] = [text.slice(0, Math.max(split, 0)).trim(), text.slice(split + 1).trim()];
  if (split < 1 || field === '' || given === '') {
    throw new RangeError(`expected FIELD=FROM:TO:STEP or FIELD=VALUE,VALUE,..., found ${JSON.stringify(text)}`);
  }
  if (!/^[A-Za-z_]\w*(\.(\w+))*$/.test(field)) {
    throw new RangeError(`expected a field such as runners.length or collector.at.1, found ${JSON.stringify(field)}`);
  }
  return { field, values: given.includes(':') ? rangeOf(given) : given.split(',').map(plainValue) };
}

function rangeOf(text: string): number[] {
  const [from, to, step, ...more] = text.split(':').map((t) => (t.trim() === '' ? Number.NaN : Number(t)));
  const wrong = (what: string): RangeError =>
    new RangeError(`expected FROM:TO:STEP, found ${JSON.stringify(text)}: ${what}`);
  if (more.length > 0 || ![from, to, step].every((v) => Number.isFinite(v))) throw wrong('three numbers are wanted');
  if (!(step! > 0 && to! >= from!)) throw wrong('the step is above zero and TO is not below FROM');
  // a millionth of a step is forgiven at the end, so that 0:1:0.1 has 1 in it
  const count = Math.floor((to! - from!) / step! + 1e-6) + 1;
  if (count > MOST_SWEPT_VALUES) throw wrong(`that is ${count} values; at most ${MOST_SWEPT_VALUES} are allowed`);
  return Array.from({ length: count }, (_, i) => Number((from! + i * step!).toPrecision(12)));
}

function plainValue(text: string): number | string {
  const value = text.trim();
  if (value === '') throw new RangeError('a value of the list is empty');
  const number = Number(value);
  return Number.isNaN(number) ? value : number;
}

/** How many designs axes give together. Throws RangeError above the cap, for no axes and for a field that stands twice. */
export function designCount(axes: readonly SweepAxis[]): number {
  if (axes.length === 0) throw new RangeError('a sweep needs at least one field to vary');
  const twice = axes.find((a, i) => axes.findIndex((b) => b.field === a.field) < i);
  if (twice) throw new RangeError(`${twice.field} is varied twice`);
  const count = axes.reduce((n, a) => n * a.values.length, 1);
  if (count > MOST_DESIGNS) throw new RangeError(`these are ${count} designs; at most ${MOST_DESIGNS} are allowed`);
  return count;
}

/** The values of design number `index` from 0, one for each axis: the last axis changes fastest. */
export function designAt(axes: readonly SweepAxis[], index: number): (number | string)[] {
  const values: (number | string)[] = [];
  let rest = index;
  for (const { values: list } of [...axes].reverse()) {
    values.unshift(list[rest % list.length]!);
    rest = Math.floor(rest / list.length);
  }
  return values;
}

/** A plan's text with other values, given for each axis. Throws RangeError naming a field the plan does not give, or that holds no plain value. */
export function planTextWith(text: string, axes: readonly SweepAxis[], values: readonly (number | string)[]): string {
  const document = parseDocument(text, { version: '1.2', schema: 'core', prettyErrors: false });
  axes.forEach(({ field }, i) => {
    const path = field.split('.').map((step) => (/^\d+$/.test(step) ? Number(step) : step));
    const node = document.getIn(path, true);
    if (!isScalar(node)) {
      const found = node === undefined ? 'does not give it' : 'has more than one value there';
      throw new RangeError(`cannot vary ${field}: the plan ${found}; name a field that holds one value`);
    }
    node.value = values[i];
    delete node.source;
  });
  return document.toString({ lineWidth: 0 });
}

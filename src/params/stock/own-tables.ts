/**
 * A plan as it was read with what it calls by name from its own `stock.tables` put in its place: the `size` of a tube becomes the
 * size, an entry `use: NAME` under bends the bend of that name with whatever else stands in the entry. Names that are not there are
 * left for the schema to report.
 */
export function withOwnTables(plan: Readonly<Record<string, unknown>>): Readonly<Record<string, unknown>> {
  const tables = section(section(plan.stock)?.tables);
  if (tables === null) return plan;
  const unit = plan.units === 'in' ? 'in' : 'mm';
  const [sizes, bends] = [named(tables.sizes), named(tables.bends)];
  const tube = (value: unknown): unknown => {
    const own = section(value);
    if (own === null) return value;
    const size = sizes.get(own.size);
    const steps = Array.isArray(own.steps) ? { steps: own.steps.map(tube) } : {};
    const listed = Array.isArray(own.bends) ? { bends: own.bends.map((b) => bendNamed(b, bends)) } : {};
    const [od, wall] = [lengthText(size?.od, unit), lengthText(size?.wall, unit)];
    // an entry with a fault of its own is told of at its place, and never quoted here
    const sized = od === null || wall === null ? {} : { size: `${od} x ${wall}` };
    return { ...own, ...steps, ...listed, ...sized };
  };
  return {
    ...plan,
    ...('tube' in plan ? { tube: tube(plan.tube) } : {}),
    ...('secondaries' in plan ? { secondaries: tube(plan.secondaries) } : {}),
  };
}

/** A length as the plan may write it; null for anything else. */
function lengthText(value: unknown, unit: 'mm' | 'in'): string | null {
  if (typeof value === 'number') return `${value} ${unit}`;
  return typeof value === 'string' ? value : null;
}

type Section = Readonly<Record<string, unknown>>;

const section = (value: unknown): Section | null =>
  typeof value === 'object' && value !== null && !Array.isArray(value) ? (value as Section) : null;

/** The entries of a list by their names, the first of a name. */
function named(list: unknown): ReadonlyMap<unknown, Section> {
  const found = new Map<unknown, Section>();
  for (const value of Array.isArray(list) ? list : []) {
    const entry = section(value);
    if (typeof entry?.name === 'string' && !found.has(entry.name)) found.set(entry.name, entry);
  }
  return found;
}

function bendNamed(value: unknown, bends: ReadonlyMap<unknown, Section>): unknown {
  const entry = section(value);
  const found = entry === null ? undefined : bends.get(entry.use);
  if (entry === null || found === undefined) return value;
  const { use: _, ...own } = entry;
  return { ...found, ...own };
}

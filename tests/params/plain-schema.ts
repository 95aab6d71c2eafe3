import type * as z from 'zod';

type JsonSchema = Parameters<typeof z.fromJSONSchema>[0];

/** A JSON Schema without the places that say only what is required: the converter of our tests does not know `required` on its own. */
export function withoutRequiredPairs(schema: object): JsonSchema {
  const plain = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(plain);
    if (typeof value !== 'object' || value === null) return value;
    const kept = Object.entries(value).filter(([key, inner]) => !(LISTS.has(key) && onlyRequired(inner)));
    return Object.fromEntries(kept.map(([key, inner]) => [key, plain(inner)]));
  };
  return plain(schema) as JsonSchema;
}

const LISTS: ReadonlySet<string> = new Set(['allOf', 'oneOf']);

const onlyRequired = (list: unknown): boolean =>
  Array.isArray(list) &&
  list.every((entry: Record<string, unknown>) => {
    const [key, ...more] = Object.keys(entry);
    return more.length === 0 && (key === 'required' || (key === 'oneOf' && onlyRequired(entry[key])));
  });

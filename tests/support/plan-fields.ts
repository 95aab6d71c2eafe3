import { planJsonSchema } from '../../src/params/json-schema.js';

interface Schema {
  readonly properties?: Readonly<Record<string, Schema>>;
  readonly items?: Schema;
  readonly anyOf?: readonly Schema[];
  readonly oneOf?: readonly Schema[];
  readonly allOf?: readonly Schema[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
}

/** Every field of a plan by its path, lists passed over (`tube.bends.clr`), and every word a field may have for a value. */
export function planFields(): { readonly paths: ReadonlySet<string>; readonly words: ReadonlySet<string> } {
  const paths = new Set<string>();
  const words = new Set<string>();
  const walk = (schema: Schema, at: readonly string[]): void => {
    for (const value of [...(schema.enum ?? []), schema.const]) if (typeof value === 'string') words.add(value);
    for (const [name, field] of Object.entries(schema.properties ?? {})) {
      paths.add([...at, name].join('.'));
      walk(field, [...at, name]);
    }
    for (const part of [schema.items, ...(schema.anyOf ?? []), ...(schema.oneOf ?? []), ...(schema.allOf ?? [])]) {
      if (typeof part === 'object') walk(part, at);
    }
  };
  walk(planJsonSchema() as Schema, []);
  return { paths, words };
}

import type { CommandModule } from 'yargs';
import { summaryJsonSchema } from '../export/summary/summary-schema.js';
import { asBuiltJsonSchema, planJsonSchema } from '../params/json-schema.js';

const SCHEMAS = { plan: planJsonSchema, summary: summaryJsonSchema, measured: asBuiltJsonSchema } as const;

interface SchemaArgs {
  readonly of: string;
}

/** `evenrun schema [plan|summary|measured]`: the JSON Schema of a plan or an as-built file, for editors, or of summary.json, for scripts. */
export const schemaCommand = (): CommandModule<object, SchemaArgs> => ({
  command: 'schema [of]',
  describe: 'Print the JSON Schema of a plan, of summary.json or of an as-built file (measured)',
  builder: (y) =>
    y
      .positional('of', {
        choices: Object.keys(SCHEMAS),
        default: 'plan',
        type: 'string',
        describe: 'What to describe',
      })
      .example('$0 schema > plan.schema.json', ''),
  handler: ({ of }) => {
    const schema = SCHEMAS[of as keyof typeof SCHEMAS]();
    process.stdout.write(`${JSON.stringify(schema, null, 2)}\n`);
  },
});

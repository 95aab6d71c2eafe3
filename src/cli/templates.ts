import type { CommandModule } from 'yargs';
import { STARTERS } from '../params/text/starter.js';

interface TemplatesArgs {
  readonly json: boolean;
}

/** `evenrun templates`: the starter plans there are. */
export const templatesCommand = (): CommandModule<object, TemplatesArgs> => ({
  command: 'templates',
  describe: 'List the starter plans',
  builder: (y) => y.option('json', { type: 'boolean', default: false, describe: 'Print them as JSON' }),
  handler: ({ json }) => {
    const width = Math.max(...STARTERS.map((s) => s.name.length));
    const text = STARTERS.map((s) => `${s.name.padEnd(width)}  ${s.title}\n`).join('');
    process.stdout.write(json ? `${JSON.stringify({ templates: STARTERS }, null, 2)}\n` : text);
  },
});

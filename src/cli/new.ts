import { writeFile } from 'node:fs/promises';
import { basename } from 'node:path';
import type { CommandModule } from 'yargs';
import { renameStarter, STARTERS } from '../params/starter.js';
import { CommandError, EXIT } from './exit-code.js';
import { reasonOf } from './read-file.js';
import { templateText } from './template-file.js';

interface NewArgs {
  readonly name: string;
  readonly template: string;
}

/** `evenrun new NAME`: a commented starter plan, never over an existing file. */
export const newCommand = (): CommandModule<object, NewArgs> => ({
  command: 'new <name>',
  describe: 'Write a commented starter plan NAME.yaml',
  builder: (y) =>
    y
      .positional('name', { type: 'string', demandOption: true, describe: 'Name of the plan; may begin with a folder' })
      .option('template', {
        type: 'string',
        choices: STARTERS.map((s) => s.name),
        default: STARTERS[0]!.name,
        describe: 'Starter plan to copy',
      })
      .example('$0 new my-engine --template v-twin', ''),
  handler: async ({ name, template }) => {
    const file = name.endsWith('.yaml') || name.endsWith('.yml') ? name : `${name}.yaml`;
    const text = renamed(await templateText(template), basename(file).replace(/\.ya?ml$/, ''));
    await writeFile(file, text, { flag: 'wx' }).catch((error: NodeJS.ErrnoException) => {
      throw new CommandError(EXIT.wrongInput, `cannot write ${file}: ${reasonOf(error)}`);
    });
    process.stdout.write(
      `Wrote ${file}. Edit its numbers, then: evenrun build ${file} --out ${file.replace(/\.ya?ml$/, '')}\n`,
    );
  },
});

function renamed(text: string, name: string): string {
  try {
    return renameStarter(text, name);
  } catch (error) {
    throw new CommandError(
      EXIT.wrongInput,
      `the name ${JSON.stringify(name)} will not do: ${(error as Error).message}`,
    );
  }
}

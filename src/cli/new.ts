import { readFile, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import type { CommandModule } from 'yargs';
import { renameStarter, STARTERS } from '../params/text/starter.js';
import { CommandError, EXIT } from './exit-code.js';
import { reasonOf } from './read-file.js';
import { templateCompanion, templateText } from './template-file.js';

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
    const companions = await newCompanions(template, dirname(file));
    await writeNew(file, text);
    for (const { path, bytes } of companions) await writeNew(path, bytes);
    const written = [file, ...companions.map((c) => c.path)].join(' and ');
    process.stdout.write(
      `Wrote ${written}. Edit its numbers, then: evenrun build ${file} --out ${file.replace(/\.ya?ml$/, '')}\n`,
    );
  },
});

const writeNew = (path: string, content: string | Uint8Array): Promise<void> =>
  writeFile(path, content, { flag: 'wx' }).catch((error: NodeJS.ErrnoException) => {
    throw new CommandError(EXIT.wrongInput, `cannot write ${path}: ${reasonOf(error)}`);
  });

/** The files a starter plan names that are not yet in the folder. Throws CommandError where another file has such a name. */
async function newCompanions(template: string, folder: string) {
  const files = STARTERS.find((s) => s.name === template)?.files ?? [];
  const companions = await Promise.all(
    files.map(async (name) => {
      const path = join(folder, name);
      const bytes = await templateCompanion(name);
      const there = await readFile(path).catch(() => null);
      if (there !== null && !there.equals(bytes)) {
        throw new CommandError(EXIT.wrongInput, `cannot write ${path}: another file of that name exists already`);
      }
      return { path, bytes, isNew: there === null };
    }),
  );
  return companions.filter((c) => c.isNew);
}

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

import { readdir, readFile } from 'node:fs/promises';
import type { CommandModule } from 'yargs';
import { nearestName } from '../params/faults/nearest-name.js';
import { CommandError, EXIT } from './exit-code.js';

interface GuideArgs {
  readonly topic: string | undefined;
}

/** Guides are one text each, beside the sources. */
const FOLDER = new URL('../../src/guides/', import.meta.url);

/** `evenrun guide [TOPIC]`: answers to the trade's questions. */
export const guideCommand = (): CommandModule<object, GuideArgs> => ({
  command: 'guide [topic]',
  describe: 'Print a guide, or list them: measuring ports, choosing bends, using the jigs ...',
  builder: (y) => y.positional('topic', { type: 'string', describe: 'Which guide; all are listed when left out' }),
  handler: async ({ topic }) => {
    const topics = await guideTopics();
    if (topic === undefined) {
      const titles = await Promise.all(topics.map(async (t) => `  ${t.padEnd(24)}${titleOf(await guideText(t))}`));
      process.stdout.write(`Guides, each printed by: evenrun guide TOPIC\n\n${titles.join('\n')}\n`);
      return;
    }
    if (!topics.includes(topic)) {
      const nearest = nearestName(topic, topics);
      const hint = nearest ? `did you mean ${nearest}?` : `there are: ${topics.join(', ')}`;
      throw new CommandError(EXIT.wrongInput, `there is no guide ${JSON.stringify(topic)}; ${hint}`);
    }
    process.stdout.write(await guideText(topic));
  },
});

const guideTopics = async (): Promise<string[]> =>
  (await readdir(FOLDER))
    .filter((f) => f.endsWith('.md'))
    .map((f) => f.slice(0, -3))
    .sort();

const guideText = (topic: string): Promise<string> => readFile(new URL(`${topic}.md`, FOLDER), 'utf8');

const titleOf = (text: string): string => text.slice(2, text.indexOf('\n'));

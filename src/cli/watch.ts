import { randomBytes } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import type { CommandModule } from 'yargs';
import { CommandError, EXIT, type ExitCode } from './exit-code.js';
import { readPlanFile } from './read-file.js';
import { openBench } from './watch/bench.js';
import { type BenchServer, type PageFiles, serveBench } from './watch/bench-server.js';

interface WatchArgs {
  readonly plan: string;
  readonly port: number;
  readonly json: boolean;
}

/** `evenrun watch PLAN`: a page on this machine that follows the plan as it is saved, and changes it. */
export const watchCommand = (end: (code: ExitCode) => void): CommandModule<object, WatchArgs> => ({
  command: 'watch <plan>',
  describe: 'Show a plan on a page of this machine that follows every save, and shape it there',
  builder: (y) =>
    y
      .positional('plan', { type: 'string', demandOption: true, describe: 'Plan file (YAML or JSON)' })
      .option('port', {
        type: 'number',
        requiresArg: true,
        default: 0,
        describe: 'Port on 127.0.0.1; the system chooses when left out',
      })
      .option('json', { type: 'boolean', default: false, describe: 'Print the address as one JSON object' })
      .example('$0 watch my-engine.yaml', ''),
  handler: async ({ plan: path, port, json }) => {
    if (!(Number.isInteger(port) && port >= 0 && port <= 65_535)) {
      throw new CommandError(EXIT.wrongInput, `--port is a whole number from 0 to 65535, not ${port}`);
    }
    await readPlanFile(path);
    const page = await pageFiles();
    let server: BenchServer | null = null;
    const bench = openBench(path, (part) => server?.tell(part));
    try {
      server = await serveBench(bench, page, port, randomBytes(24).toString('base64url'));
      const { url } = server;
      process.stdout.write(
        json
          ? `${JSON.stringify({ url, plan: path })}\n`
          : `Watching ${path}. Open ${url}\nThe address holds a key of this run: who has it can change the plan. Ctrl-C ends it.\n`,
      );
      await toldToEnd();
    } finally {
      await server?.close();
      await bench.close();
    }
    end(EXIT.ok);
  },
});

/** The page as it was bundled at build. */
async function pageFiles(): Promise<PageFiles> {
  const read = (name: string): Promise<string> => readFile(new URL(`../page/${name}`, import.meta.url), 'utf8');
  return { script: await read('bench.js'), style: await read('bench.css') };
}

const toldToEnd = (): Promise<void> =>
  new Promise((ended) => {
    for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.once(signal, () => ended());
  });

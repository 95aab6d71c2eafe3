import { readFileSync } from 'node:fs';
import pc from 'picocolors';
import yargs, { type Argv, type CommandModule } from 'yargs';
import { nearestName } from '../params/faults/nearest-name.js';
import { CommandError, EXIT, type ExitCode } from './exit-code.js';

type End = (code: ExitCode) => void;

/** The commands, each loaded when it is asked for: help and a typo load them all. */
const COMMANDS: Readonly<Record<string, (end: End) => Promise<unknown>>> = {
  new: async () => (await import('./new.js')).newCommand(),
  templates: async () => (await import('./templates.js')).templatesCommand(),
  tune: async (end) => (await import('./tune.js')).tuneCommand(end),
  check: async (end) => (await import('./check.js')).checkCommand(end),
  watch: async (end) => (await import('./watch.js')).watchCommand(end),
  build: async (end) => (await import('./build.js')).buildCommand(end),
  compare: async (end) => (await import('./compare.js')).compareCommand(end),
  measure: async (end) => (await import('./measure/measure.js')).measureCommand(end),
  sweep: async (end) => (await import('./sweep/sweep.js')).sweepCommand(end),
  schema: async () => (await import('./schema.js')).schemaCommand(),
  guide: async () => (await import('./guide.js')).guideCommand(),
};

/** Calls that name no command and need none. */
const ALONE: readonly string[] = ['--version', '-v'];

/** Runs the command line and returns its exit code; everything a user can mend is said in a sentence, never as a stack. */
export async function runCli(args: readonly string[]): Promise<ExitCode> {
  let code: ExitCode = EXIT.ok;
  const end: End = (c) => {
    code = c;
  };
  const json = args.includes('--json');
  try {
    const parser = await commandLine(args, end);
    await parser.parseAsync();
    return code;
  } catch (error) {
    return sayError(error, json);
  }
}

async function commandLine(args: readonly string[], end: End): Promise<Argv> {
  const asked = args[0] ?? '';
  const names = Object.hasOwn(COMMANDS, asked) ? [asked] : ALONE.includes(asked) ? [] : Object.keys(COMMANDS);
  const commands = (await Promise.all(names.map((name) => COMMANDS[name]!(end)))) as CommandModule[];
  const usage = commands.map((c) => String(c.command)).find((c) => c.split(' ')[0] === args[0]);
  const parser = yargs([...args])
    .scriptName('evenrun')
    .usage(
      '$0 <command>\n\nEqual-length exhaust headers: from measured ports to flange, routes, collector, jigs and the check.',
    )
    .demandCommand(1, 'Name a command, such as: evenrun build my-engine.yaml --out my-engine')
    .recommendCommands()
    .strict()
    .version(version())
    .help()
    .alias({ h: 'help', v: 'version' })
    .epilogue(
      'Exit: 0 all checks hold, 1 a check fails, 2 the plan or the call is wrong, 3 no route within the limits.',
    )
    .exitProcess(false)
    .wrap(Math.min(100, process.stdout.columns || 100))
    .fail((message, error) => {
      if (error) throw error;
      const hint = usage ? `Usage: evenrun ${usage}. See: evenrun ${args[0]} --help` : 'See: evenrun --help';
      throw new CommandError(EXIT.wrongInput, `${withSuggestion(message)}\n${hint}`);
    });
  return commands.reduce((y, c) => y.command(c), parser);
}

/** Every option of every command. */
const OPTIONS = [
  'out',
  'json',
  'alternatives',
  'jobs',
  'resume',
  'quick',
  'template',
  'as-built',
  'blank',
  'vary',
  'shard',
  'effort',
  'merge',
  'port',
  'rpm',
  'simulate',
  'points',
  'search',
  'help',
  'version',
] as const;

/** An unknown option with the nearest one there is. */
function withSuggestion(message: string): string {
  const unknown = /^Unknown arguments?: (.+)$/.exec(message)?.[1]?.split(', ')[0];
  const nearest = unknown && nearestName(unknown, OPTIONS);
  return nearest ? `${message}. Did you mean --${nearest}?` : message;
}

function version(): string {
  const text = readFileSync(new URL('../../package.json', import.meta.url), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}

function sayError(error: unknown, json: boolean): ExitCode {
  if (!(error instanceof CommandError)) {
    process.stderr.write(`evenrun met a fault of its own: ${error instanceof Error ? error.stack : String(error)}\n`);
    return EXIT.fault;
  }
  if (json) {
    const said = { error: { exit: error.code, message: error.message, ...error.details } };
    process.stdout.write(`${JSON.stringify(said, null, 2)}\n`);
  } else {
    process.stderr.write(`${pc.red('error')} ${error.message}\n`);
  }
  return error.code;
}

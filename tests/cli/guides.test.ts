import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { evenrun } from '../support/command.js';
import { DOCUMENTS } from '../support/documents.js';

const FOLDER = new URL('../../src/guides/', import.meta.url);
const GUIDES = readdirSync(FOLDER).map((f) => [f, readFileSync(new URL(f, FOLDER), 'utf8')] as const);

const HELPS = new Map<string, string>();

/** What a command says of itself, asked for once. */
function helpOf(command: string): string {
  const help = HELPS.get(command) ?? evenrun([command, '--help'], '.').out;
  HELPS.set(command, help);
  return help;
}

describe('guides', () => {
  test.each(DOCUMENTS)('%s names only commands and options there are', (_, text) => {
    const calls = [...text.matchAll(/(?<=^|`|&& )evenrun (\w+)((?:\\\n|[^`\n#])*)/gm)];
    for (const [, command, rest] of calls) {
      const help = helpOf(command!);
      expect(help, command).toContain(`evenrun ${command}`);
      for (const [option] of rest!.matchAll(/--[\w-]+/g)) expect(help, `${command} ${option}`).toContain(option);
    }
  });

  test('are listed with their titles, printed, and named when misspelt', () => {
    const list = evenrun(['guide'], '.').out;
    for (const [file, text] of GUIDES) {
      expect(list).toContain(file.replace('.md', ''));
      expect(list).toContain(text.slice(2, text.indexOf('\n')));
    }
    expect(evenrun(['guide', 'using-jigs'], '.').out).toBe(GUIDES.find(([f]) => f === 'using-jigs.md')![1]);
    const wrong = evenrun(['guide', 'using-jig'], '.');
    expect([wrong.code, wrong.err]).toEqual([2, expect.stringContaining('did you mean using-jigs?')]);
  });
});

import { spawnSync } from 'node:child_process';
import type { TestContext } from 'vitest';

/** Programs that tests lean on: how to find each, and the package that brings it. */
const TOOLS = {
  ezdxf: {
    commands: ['python3', '/usr/bin/python3', '/usr/local/bin/python3', 'python'],
    probe: ['-c', 'import ezdxf'],
    from: 'the Python package ezdxf (python3-ezdxf)',
  },
  admesh: { commands: ['admesh'], probe: ['--version'], from: 'admesh' },
  'prusa-slicer': { commands: ['prusa-slicer'], probe: ['--help'], from: 'prusa-slicer' },
  pdftoppm: { commands: ['pdftoppm'], probe: ['-v'], from: 'poppler-utils' },
  pdfinfo: { commands: ['pdfinfo'], probe: ['-v'], from: 'poppler-utils' },
  pdftotext: { commands: ['pdftotext'], probe: ['-v'], from: 'poppler-utils' },
  chromium: { commands: ['/usr/bin/chromium', 'chromium'], probe: ['--version'], from: 'chromium' },
  'rsvg-convert': { commands: ['rsvg-convert'], probe: ['--version'], from: 'librsvg2-bin' },
} as const;

export type ToolName = keyof typeof TOOLS;

const found = new Map<ToolName, string | null>();

/** The command of a tool a test needs: for ezdxf the Python that has it. Where it is missing the test is skipped with the reason, on CI it fails. */
export function requireTool(name: ToolName, context: Pick<TestContext, 'skip'>): string {
  const command = found.get(name) ?? search(name);
  found.set(name, command);
  if (command !== null) return command;
  const reason = `${name} is not installed: it comes with ${TOOLS[name].from}`;
  if (process.env.CI) throw new Error(`${reason}; CI runs every test`);
  return context.skip(reason);
}

function search(name: ToolName): string | null {
  const { commands, probe } = TOOLS[name];
  return commands.find((c) => spawnSync(c, [...probe], { stdio: 'ignore' }).status === 0) ?? null;
}

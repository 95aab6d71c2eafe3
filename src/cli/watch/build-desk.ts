import { type ChildProcess, fork } from 'node:child_process';
import { setPriority } from 'node:os';
import { fileURLToPath } from 'node:url';
import type { BuildJob, BuildNews } from './build-process.js';

/** News of a build; `died` when its process came to an end before it was done, and whether it is tried once more. */
export type BuildDeskNews = BuildNews | { readonly news: 'died'; readonly again: boolean };

/** Builds the parts of a plan beside the server; a newer build ends the older. */
export interface BuildDesk {
  readonly start: (job: BuildJob, tell: (news: BuildDeskNews) => void) => void;
  /** Ends the build there is. */
  readonly stop: () => void;
}

/** How much less urgent than routes parts are. */
const NICENESS = 10;

/** A desk that runs `entry` for each build. */
export function buildDesk(entry: URL = new URL('./build-process.js', import.meta.url)): BuildDesk {
  let child: ChildProcess | null = null;

  const stop = (): void => {
    const old = child;
    child = null;
    old?.kill('SIGKILL');
  };
  const run = (job: BuildJob, tell: (news: BuildDeskNews) => void, tries: number): void => {
    const own = fork(fileURLToPath(entry), {
      serialization: 'advanced',
      stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
    });
    child = own;
    let isDone = false;
    own.on('message', (news: BuildNews) => {
      if (child !== own) return;
      isDone ||= news.news !== 'step';
      tell(news);
    });
    const lost = (): void => {
      if (child !== own) return;
      child = null;
      if (isDone) return;
      tell({ news: 'died', again: tries > 1 });
      if (tries > 1) run(job, tell, tries - 1);
    };
    own.on('exit', lost);
    own.on('error', lost);
    own.on('spawn', () => lower(own.pid));
    own.send(job, (error) => (error ? lost() : undefined));
  };
  return {
    start: (job, tell) => {
      stop();
      run(job, tell, 2);
    },
    stop,
  };
}

/** Not every system lets one. */
function lower(pid: number | undefined): void {
  try {
    if (pid !== undefined) setPriority(pid, NICENESS);
  } catch {
    // it then takes its share like any other
  }
}

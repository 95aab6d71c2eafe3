import { statSync } from 'node:fs';
import { dirname, resolve } from 'node:path';
import { type FSWatcher, watch } from 'chokidar';

/** Watches a plan and the files it names. */
export interface PlanWatcher {
  /** The files the plan names now, by their whole paths. */
  readonly alsoWatch: (paths: readonly string[]) => void;
  readonly close: () => Promise<void>;
}

/** How long a file must be left alone before it counts as saved, ms: editors write in several strokes. */
const SETTLED = 60;

/** How often the plan is looked at beside what the system tells, ms: some disks tell nothing, and a folder may come back. */
const LOOK = 1000;

/**
 * Tells when a plan is saved, removed or back, and whether files it names were. Folders are watched, since many editors replace a file.
 */
export function planWatcher(plan: string, changed: (others: boolean) => void): PlanWatcher {
  const main = resolve(plan);
  let wanted = new Set([main]);
  let watcher = watching(wanted, soon);
  let timer: NodeJS.Timeout | null = null;
  let seen = mark(wanted);
  let seenOthers = mark(wanted, main);

  function soon(): void {
    if (timer) clearTimeout(timer);
    timer = setTimeout(() => {
      const [before, others] = [seenOthers, mark(wanted, main)];
      [seen, seenOthers] = [mark(wanted), others];
      changed(others !== before);
    }, SETTLED);
  }
  const look = setInterval(() => {
    if (mark(wanted) !== seen) soon();
  }, LOOK);

  return {
    alsoWatch: (paths) => {
      const next = new Set([main, ...paths.map((p) => resolve(p))]);
      if (next.size === wanted.size && [...next].every((p) => wanted.has(p))) return;
      void watcher.close();
      wanted = next;
      [seen, seenOthers] = [mark(wanted), mark(wanted, main)];
      watcher = watching(wanted, soon);
    },
    close: async () => {
      if (timer) clearTimeout(timer);
      clearInterval(look);
      await watcher.close();
    },
  };
}

function watching(wanted: ReadonlySet<string>, told: () => void): FSWatcher {
  const folders = new Set([...wanted].map((p) => dirname(p)));
  const watcher = watch([...folders], {
    ignoreInitial: true,
    depth: 0,
    ignored: (path) => !folders.has(resolve(path)) && !wanted.has(resolve(path)),
  });
  watcher.on('all', told);
  // the look from time to time stands in
  watcher.on('error', () => {});
  return watcher;
}

/** Size and time of every file but one: another mark, another version. */
const mark = (paths: ReadonlySet<string>, without?: string): string =>
  [...paths]
    .filter((path) => path !== without)
    .map((path) => {
      const stat = statSync(path, { throwIfNoEntry: false });
      return stat ? `${stat.ino} ${stat.size} ${stat.mtimeMs}` : 'none';
    })
    .join();

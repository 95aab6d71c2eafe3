import { parentPort, workerData } from 'node:worker_threads';
import { doRouting, type EarlierRoutes, type RoutingJob, type RoutingNews } from './routing-job.js';

/** What the thread says of a job; null when it is done. */
export interface ThreadNews {
  readonly id: number;
  readonly news: RoutingNews | null;
}

// Runs on a thread of its own. The number in `stop` is that of a job nobody waits for any more.
const stop = new Int32Array((workerData as { readonly stop: SharedArrayBuffer }).stop);
const earlier: EarlierRoutes = new Map();

parentPort!.on('message', (job: RoutingJob) => {
  const tell = (news: RoutingNews | null): void => parentPort!.postMessage({ id: job.id, news } satisfies ThreadNews);
  doRouting(job, earlier, () => Atomics.load(stop, 0) !== job.id, tell);
  tell(null);
});

import { Worker } from 'node:worker_threads';
import type { RoutingJob, RoutingNews } from './routing-job.js';
import type { ThreadNews } from './routing-thread.js';

/** News of a job; `died` when the thread that worked on it came to an end. */
export type DeskNews = RoutingNews | { readonly news: 'died'; readonly words: string };

/** Takes texts to be routed, one after another; of each lane only the newest. */
export interface RoutingDesk {
  /** Done when the job is, or another of its lane has taken its place. */
  readonly ask: (job: Omit<RoutingJob, 'id'>, tell: (news: DeskNews) => void) => Promise<void>;
  readonly close: () => Promise<void>;
}

interface Order {
  readonly job: RoutingJob;
  readonly tell: (news: DeskNews) => void;
  readonly done: () => void;
}

/** A desk with a thread of its own, started anew when it dies. `entry` is the module it runs. */
export function routingDesk(entry: URL = new URL('./routing-thread.js', import.meta.url)): RoutingDesk {
  const stop = new SharedArrayBuffer(4);
  const waiting = new Map<string, Order>();
  let thread: Worker | null = null;
  let running: Order | null = null;
  let count = 0;
  let isClosed = false;

  const finish = (last: DeskNews | null): void => {
    const order = running;
    running = null;
    if (last) order?.tell(last);
    order?.done();
    next();
  };
  const hire = (): Worker => {
    const fresh = new Worker(entry, { workerData: { stop } });
    const lost = (words: string): void => {
      if (thread !== fresh) return;
      thread = null;
      if (!isClosed) finish({ news: 'died', words });
    };
    fresh.on('message', ({ id, news }: ThreadNews) => {
      if (running?.job.id !== id) return;
      if (news === null) finish(null);
      else running.tell(news);
    });
    fresh.on('error', (error) => lost(error instanceof Error ? error.message : String(error)));
    fresh.on('exit', () => lost('it was ended'));
    return fresh;
  };
  const next = (): void => {
    if (running !== null || isClosed) return;
    // a look at a page's changes is quick: it goes before a search
    const orders = [...waiting.values()];
    const order = orders.find((o) => o.job.how === 'follow') ?? orders[0];
    if (!order) return;
    waiting.delete(order.job.lane);
    running = order;
    thread ??= hire();
    thread.postMessage(order.job);
  };

  return {
    ask: (job, tell) =>
      new Promise((done) => {
        const replaced = waiting.get(job.lane);
        replaced?.tell({ news: 'superseded' });
        replaced?.done();
        if (running?.job.lane === job.lane) Atomics.store(new Int32Array(stop), 0, running.job.id);
        count = (count + 1) % 2 ** 30;
        waiting.set(job.lane, { job: { ...job, id: count }, tell, done });
        next();
      }),
    close: async () => {
      isClosed = true;
      await thread?.terminate();
    },
  };
}

import type { ServerResponse } from 'node:http';

/** Open pages that are told what is new, as server-sent events (WHATWG HTML, section 9.2). */
export interface EventStream {
  /** False when there are too many already. */
  readonly join: (response: ServerResponse, first: readonly (readonly [name: string, data: unknown])[]) => boolean;
  readonly send: (name: string, data: unknown) => void;
  readonly close: () => void;
}

const MOST_PAGES = 16;
/** A page that does not read is let go when so much waits for it, bytes: it asks again. */
const MOST_WAITING = 64_000_000;
/** Keeps the connection from being taken for dead, ms. */
const BEAT = 15_000;

/** A stream without listeners. */
export function eventStream(): EventStream {
  const pages = new Set<ServerResponse>();
  const write = (page: ServerResponse, words: string): void => {
    if (page.writableLength > MOST_WAITING) page.destroy();
    else page.write(words);
  };
  const event = (name: string, data: unknown): string => `event: ${name}\ndata: ${JSON.stringify(data)}\n\n`;
  const beat = setInterval(() => {
    for (const page of pages) write(page, ': still here\n\n');
  }, BEAT);
  return {
    join: (page, first) => {
      if (pages.size >= MOST_PAGES) return false;
      pages.add(page);
      page.on('close', () => pages.delete(page));
      for (const [name, data] of first) write(page, event(name, data));
      return true;
    },
    send: (name, data) => {
      const words = event(name, data);
      for (const page of pages) write(page, words);
    },
    close: () => {
      clearInterval(beat);
      for (const page of pages) page.end();
      pages.clear();
    },
  };
}

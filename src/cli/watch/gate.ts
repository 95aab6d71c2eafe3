import { createHash, timingSafeEqual } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';

/** What a request shows before its body is read. */
export interface Visitor {
  readonly method: string;
  /** As it came: path and query. */
  readonly url: string;
  readonly headers: IncomingHttpHeaders;
}

/** The server that is visited. */
export interface House {
  readonly port: number;
  readonly token: string;
}

export type Gate =
  | { readonly open: true; readonly path: string }
  | { readonly open: false; readonly status: number; readonly reason: string };

/** Longest request line that is looked at. */
const LONGEST_URL = 500;

/**
 * Lets in who asked for this very server (Host, against names that were made to point here), from its own page (Origin and
 * Sec-Fetch-Site, against other pages in the same browser), with the token of this run (against other people and programs of the
 * machine), and nobody else. The path is a name to be looked up, never a place on the disk.
 */
export function gate({ method, url, headers }: Visitor, { port, token }: House): Gate {
  const shut = (status: number, reason: string): Gate => ({ open: false, status, reason });
  const hosts = [`127.0.0.1:${port}`, `localhost:${port}`];
  if (!hosts.includes(headers.host ?? '')) return shut(421, 'this server answers to 127.0.0.1 alone');
  if (method !== 'GET' && method !== 'POST') return shut(405, 'GET and POST alone');
  const { origin } = headers;
  const ours = origin !== undefined && hosts.some((host) => origin === `http://${host}`);
  if (!ours && (origin !== undefined || method === 'POST')) return shut(403, 'from another page');
  const site = headers['sec-fetch-site'];
  if (site !== undefined && site !== 'same-origin' && site !== 'none') return shut(403, 'from another page');
  if (url.length > LONGEST_URL || !url.startsWith('/')) return shut(400, 'no such address');
  const [path = '', query = ''] = url.split('?');
  if (!isToken(new URLSearchParams(query).get('token') ?? '', token))
    return shut(403, 'the token of this run is missing');
  return { open: true, path };
}

/** In the same time whatever is given. */
function isToken(given: string, token: string): boolean {
  const digest = (text: string): Buffer => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(given), digest(token));
}

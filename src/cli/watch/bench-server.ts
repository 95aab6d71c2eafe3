import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import * as z from 'zod';
import { MOST_EDITS, planEditSchema } from '../../params/plan-edit/plan-edit.js';
import { CommandError, EXIT } from '../exit-code.js';
import type { Bench, BenchNews } from './bench.js';
import { eventStream } from './event-stream.js';
import { gate } from './gate.js';
import { benchHtml } from './page-html.js';
import { outputHeaders } from './served-output.js';

/** What the page is made of. */
export interface PageFiles {
  readonly script: string;
  readonly style: string;
}

/** A server that runs. */
export interface BenchServer {
  readonly url: string;
  readonly tell: (part: keyof BenchNews) => void;
  readonly close: () => Promise<void>;
}

/** Largest request a page makes, bytes. */
const LARGEST_BODY = 256_000;

const HEADERS = {
  'cache-control': 'no-store',
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
  'content-security-policy': [
    "default-src 'none'",
    "script-src 'self'",
    "style-src 'self'",
    "connect-src 'self'",
    'img-src data: blob:',
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; '),
} as const;

const request = z.object({ base: z.string().max(64), edits: z.array(planEditSchema).max(MOST_EDITS) });
const trialRequest = request.extend({
  client: z.string().regex(/^[a-z0-9]{1,32}$/),
  how: z.enum(['follow', 'route']),
});

/** Serves the page of a bench on 127.0.0.1 alone. `port` 0 lets the system choose. Throws CommandError where the port is taken. */
export async function serveBench(bench: Bench, page: PageFiles, port: number, token: string): Promise<BenchServer> {
  const stream = eventStream();
  const server = createServer({ requestTimeout: 10_000, headersTimeout: 5_000, maxHeaderSize: 16_384 });
  await listening(server, port);
  const house = { port: (server.address() as AddressInfo).port, token };
  const gets = new Map<string, (response: ServerResponse) => void>([
    ['/', (r) => answer(r, 200, 'text/html; charset=utf-8', benchHtml(token))],
    ['/bench.js', (r) => answer(r, 200, 'text/javascript; charset=utf-8', page.script)],
    ['/bench.css', (r) => answer(r, 200, 'text/css; charset=utf-8', page.style)],
    ['/events', (r) => joinStream(r)],
  ]);
  const posts = new Map<string, (body: unknown) => Promise<unknown>>([
    ['/trial', (body) => bench.attempt(trialRequest.parse(body))],
    ['/save', (body) => bench.save(request.parse(body))],
  ]);

  function joinStream(response: ServerResponse): void {
    response.writeHead(200, { ...HEADERS, 'content-type': 'text/event-stream' });
    if (!stream.join(response, Object.entries(bench.now()))) response.end();
  }

  async function visit(request: IncomingMessage, response: ServerResponse): Promise<void> {
    const { method = '', url = '', headers } = request;
    const entry = gate({ method, url, headers }, house);
    if (!entry.open) return refuse(response, entry.status, entry.reason);
    if (method === 'GET') {
      const get = gets.get(entry.path);
      if (get) return get(response);
      return giveOutput(bench, entry.path, response);
    }
    const post = posts.get(entry.path);
    if (!post) return refuse(response, gets.has(entry.path) ? 405 : 404, 'no such address');
    const body = await bodyOf(request);
    if ('status' in body) return refuse(response, body.status, body.reason);
    const said = await post(body.json);
    answer(response, 200, 'application/json', JSON.stringify(said));
  }

  server.on('request', (request, response) => {
    visit(request, response).catch((error: unknown) => {
      const isWrong = error instanceof z.ZodError;
      refuse(response, isWrong ? 400 : 500, isWrong ? 'not a request of the page' : 'a fault of the server');
      if (!isWrong) process.stderr.write(`${error instanceof Error ? error.stack : String(error)}\n`);
    });
  });
  return {
    url: `http://127.0.0.1:${house.port}/?token=${token}`,
    tell: (part) => stream.send(part, bench.now()[part]),
    close: async () => {
      stream.close();
      server.closeAllConnections();
      await new Promise((closed) => server.close(closed));
    },
  };
}

function listening(server: Server, port: number): Promise<void> {
  return new Promise((ready, failed) => {
    server.once('error', (error: NodeJS.ErrnoException) => {
      const why = error.code === 'EADDRINUSE' ? 'another program has it' : error.message;
      const message = `cannot listen on port ${port}: ${why}; leave --port out and the system chooses one`;
      failed(new CommandError(EXIT.wrongInput, message));
    });
    server.listen(port, '127.0.0.1', ready);
  });
}

const answer = (response: ServerResponse, status: number, type: string, content: string | Uint8Array): void => {
  if (response.headersSent) return void response.end();
  response.writeHead(status, { ...HEADERS, 'content-type': type });
  response.end(content);
};

function refuse(response: ServerResponse, status: number, reason: string): void {
  response.setHeader('connection', 'close');
  if (status === 405) response.setHeader('allow', 'GET, POST');
  answer(response, status, 'text/plain; charset=utf-8', `${reason}\n`);
}

/** One of the files that were built: by its number, from memory. */
function giveOutput(bench: Bench, path: string, response: ServerResponse): void {
  const number = /^\/out\/([1-9]\d{0,8})$/.exec(path)?.[1];
  const output = number === undefined ? null : bench.outputOf(Number(number));
  if (output) {
    response.writeHead(200, { ...HEADERS, ...outputHeaders(output.path) });
    response.end(output.bytes);
  } else refuse(response, 404, 'no such address');
}

type Body = { readonly json: unknown } | { readonly status: number; readonly reason: string };

/** The JSON of a request; what comes beyond the limit is let fall. */
async function bodyOf(request: IncomingMessage): Promise<Body> {
  if (!/^application\/json\b/.test(request.headers['content-type'] ?? '')) {
    request.resume();
    return { status: 415, reason: 'JSON alone' };
  }
  const body = await bytesOf(request);
  if (body === null) return { status: 413, reason: `at most ${LARGEST_BODY} bytes` };
  try {
    return { json: JSON.parse(body.toString('utf8')) };
  } catch {
    return { status: 400, reason: 'not JSON' };
  }
}

/** Null as soon as they are too many. */
function bytesOf(request: IncomingMessage): Promise<Buffer | null> {
  return new Promise((done, failed) => {
    const parts: Buffer[] = [];
    let size = 0;
    request.on('data', (part: Buffer) => {
      size += part.length;
      if (size > LARGEST_BODY) done(null);
      else parts.push(part);
    });
    request.on('end', () => done(Buffer.concat(parts)));
    request.on('error', failed);
  });
}

import { readFileSync } from 'node:fs';
import { request } from 'node:http';
import { connect } from 'node:net';
import { networkInterfaces } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { TEMPLATE_FOLDER } from '../support/command.js';
import { type Watching, watchPlan } from '../support/watching.js';

interface Sent {
  readonly method?: string;
  readonly path?: string;
  readonly headers?: Record<string, string>;
  readonly body?: string;
}

/** The page of another server, or a program that guesses. */
describe('the server of evenrun watch', () => {
  let bench: Watching;
  let text: string;
  beforeAll(async () => {
    text = readFileSync(join(TEMPLATE_FOLDER, 'single.yaml'), 'utf8');
    bench = await watchPlan(text);
  });
  afterAll(async () => {
    expect(bench.read()).toBe(text);
    await bench.stop();
  });

  const send = ({ method = 'GET', path = `/?token=${bench.token}`, headers = {}, body }: Sent) =>
    new Promise<{ status: number; text: string; headers: NodeJS.Dict<string | string[]> }>((done, failed) => {
      const asked = request({ host: '127.0.0.1', port: bench.port, method, path, headers }, (response) => {
        let said = '';
        response.setEncoding('utf8');
        response.on('data', (part) => {
          said += part;
        });
        response.on('end', () => done({ status: response.statusCode!, text: said, headers: response.headers }));
      });
      asked.on('error', failed);
      asked.end(body);
    });
  const post = (headers: Record<string, string>, body = '{"base":"x","edits":[]}', path = '/save') =>
    send({ method: 'POST', path: `${path}?token=${bench.token}`, headers, body });
  const json = { 'content-type': 'application/json' };

  it('gives its page to its own address alone, under a strict policy', async () => {
    const page = await send({});
    expect(page.status).toBe(200);
    expect(page.headers['content-security-policy']).toContain("default-src 'none'");
    expect(String(page.headers['content-security-policy'])).not.toMatch(/unsafe|\*/);
    expect(page.headers['x-content-type-options']).toBe('nosniff');
    expect(page.headers['access-control-allow-origin']).toBeUndefined();
  });

  it('does not listen to the network', async () => {
    const outer = Object.values(networkInterfaces())
      .flatMap((list) => list ?? [])
      .filter((i) => !i.internal && i.family === 'IPv4');
    for (const { address } of outer) {
      const reached = await new Promise<boolean>((done) => {
        const socket = connect({ host: address, port: bench.port, timeout: 2000 });
        socket.on('connect', () => done(true));
        for (const event of ['error', 'timeout'] as const) socket.on(event, () => done(false));
      });
      expect(reached, address).toBe(false);
    }
  });

  it.each([['example.com'], ['127.0.0.1'], ['127.0.0.1:1'], ['localhost.example.com:80'], ['[::1]:80']])(
    'refuses the host %s',
    async (host) => {
      expect((await send({ headers: { host } })).status).toBe(421);
    },
  );

  it.each([[''], ['x'], ['A'.repeat(32)]])('refuses the token "%s"', async (token) => {
    for (const path of ['/', '/bench.js', '/events', '/out/1']) {
      expect((await send({ path: `${path}?token=${token}` })).status).toBe(403);
      expect((await send({ path })).status).toBe(403);
    }
  });

  it('refuses a token that is nearly right, too long or given twice', async () => {
    const { token } = bench;
    const last = token.at(-1) === 'A' ? 'B' : 'A';
    for (const wrong of [token.slice(0, -1), `${token}x`, token.slice(0, -1) + last, `x&token=${token}`]) {
      expect((await send({ path: `/?token=${wrong}` })).status, wrong).toBe(403);
    }
  });

  it.each([['http://example.com'], ['null'], ['https://127.0.0.1'], ['http://127.0.0.1:1']])(
    'refuses the origin %s, for looking and for writing',
    async (origin) => {
      expect((await send({ headers: { origin } })).status).toBe(403);
      expect((await post({ ...json, origin })).status).toBe(403);
    },
  );

  it('refuses to write for nobody, for another site, and for a form', async () => {
    const { origin } = bench;
    expect((await post(json)).status).toBe(403);
    expect((await post({ ...json, origin, 'sec-fetch-site': 'cross-site' })).status).toBe(403);
    expect((await post({ origin, 'content-type': 'text/plain' })).status).toBe(415);
    expect((await post({ origin, ...json })).status).toBe(200);
  });

  it.each([
    '/../plan.yaml',
    '/..%2fplan.yaml',
    '/plan.yaml',
    '//etc/passwd',
    '/etc/passwd',
    '/out/../plan.yaml',
    '/out/0',
    '/out/1e1',
    '/out/%31',
    '/bench.js/',
    '/bench.js%00',
    '/constructor',
    '/__proto__',
  ])('knows no address %s', async (path) => {
    const found = await send({ path: `${path}?token=${bench.token}` });
    expect(found.status).toBe(404);
    expect(found.text).toBe('no such address\n');
  });

  it.each(['HEAD', 'PUT', 'DELETE', 'OPTIONS', 'PATCH', 'TRACE'])('refuses %s', async (method) => {
    expect((await send({ method, headers: { origin: bench.origin } })).status).toBe(405);
  });

  it('refuses posts to what is only read', async () => {
    expect((await post({ ...json, origin: bench.origin }, '{}', '/')).status).toBe(405);
    expect((await post({ ...json, origin: bench.origin }, '{}', '/nowhere')).status).toBe(404);
  });

  it('refuses what is too large, said or not said beforehand', async () => {
    const { origin } = bench;
    const large = JSON.stringify({ base: 'x'.repeat(300_000), edits: [] });
    expect((await post({ ...json, origin, 'content-length': String(large.length) }, large)).status).toBe(413);
    expect((await post({ ...json, origin, 'transfer-encoding': 'chunked' }, large)).status).toBe(413);
    expect((await send({ path: `/${'a'.repeat(2000)}?token=${bench.token}` })).status).toBe(400);
  });

  it.each([
    ['not JSON', '{'],
    ['no request', '[]'],
    ['an unknown change', '{"base":"x","edits":[{"edit":"name","value":"x"}]}'],
    ['a path in a change', '{"base":"x","edits":[{"edit":"runners","field":"../name","value":1}]}'],
    ['no number', '{"base":"x","edits":[{"edit":"runners","field":"length","value":"1"}]}'],
    ['too many changes', `{"base":"x","edits":[${'{"edit":"runners","field":"length","value":1},'.repeat(300)}{}]}`],
  ])('refuses %s', async (_, body) => {
    expect((await post({ ...json, origin: bench.origin }, body)).status).toBe(400);
  });

  it('is still there', async () => {
    expect((await send({})).status).toBe(200);
  });
});

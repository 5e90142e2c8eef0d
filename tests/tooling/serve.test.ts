import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { serve, type Served } from '../../scripts/setup/serve.mjs';

describe('the server of the built page', () => {
  const folder = mkdtempSync(join(tmpdir(), 'swarfside-serve-'));
  const long = Array.from({ length: 40_000 }, (_, line) => `export const line${line} = ${line ** 2};`).join('\n');
  let served: Served;

  beforeAll(async () => {
    mkdirSync(join(folder, 'assets'));
    mkdirSync(join(folder, 'model'));
    writeFileSync(
      join(folder, 'index.html'),
      '<!doctype html><title>planted</title><style>p{}</style><script>a()</script><script type="module" src="./assets/a-1234.js"></script>',
    );
    writeFileSync(join(folder, 'assets/a-1234.js'), 'export {};');
    writeFileSync(join(folder, 'model/mdef'), 'model');
    writeFileSync(join(folder, 'assets/long-5678.js'), long);
    writeFileSync(join(folder, 'model/weights'), long);
    served = await serve(0, folder);
  });

  afterAll(async () => {
    await served.close();
    rmSync(folder, { recursive: true });
  });

  const ask = (path: string, init?: RequestInit): Promise<Response> => fetch(new URL(path, served.url), init);

  test.each([
    ['/', 200, 'text/html;charset=utf-8', 'no-cache'],
    ['/index.html', 200, 'text/html;charset=utf-8', 'no-cache'],
    ['/assets/a-1234.js', 200, 'text/javascript', 'public, max-age=31536000, immutable'],
    ['/model/mdef', 200, 'application/octet-stream', 'no-cache'],
    ['/model/absent', 404, 'text/plain; charset=utf-8', null],
    ['/../package.json', 404, 'text/plain; charset=utf-8', null],
    ['/%2e%2e/package.json', 404, 'text/plain; charset=utf-8', null],
  ])('%s is answered with %d', async (path, status, type, cache) => {
    const answer = await ask(path);
    expect([answer.status, answer.headers.get('content-type'), answer.headers.get('cache-control')]).toEqual([
      status,
      type,
      cache,
    ]);
  });

  test.each(['/', '/absent'])('every answer for %s keeps the page to itself', async (path) => {
    const { headers } = await ask(path);
    expect(headers.get('content-security-policy')).toContain(
      // Digests as `openssl dgst -sha256 -binary | base64` gives them for `a()` and `p{}`.
      "default-src 'self'; script-src 'self' 'wasm-unsafe-eval' 'sha256-qVpDBgj7bpq5hMAcGp3AOc79J3Y1Z4HvySTwKrWDoy4='; connect-src 'self'; style-src 'self' 'sha256-gG2yISYereRMiG2lMXrbiUgi0Ubw9p7QCeWcroOvy9Y=';",
    );
    expect(headers.get('content-security-policy')).toContain("frame-ancestors 'none'");
    expect(headers.get('permissions-policy')).toContain('microphone=(self), camera=()');
    expect(headers.get('x-content-type-options')).toBe('nosniff');
    expect(headers.get('x-frame-options')).toBe('DENY');
  });

  test.each(['POST', 'PUT', 'DELETE'])('%s is refused', async (method) => {
    expect((await ask('/', { method })).status).toBe(405);
  });

  test.each([
    ['br, gzip', '/assets/long-5678.js', 'br'],
    ['gzip', '/assets/long-5678.js', 'gzip'],
    ['identity', '/assets/long-5678.js', null],
    ['br', '/model/weights', null],
    ['br', '/assets/a-1234.js', null],
  ])('to who takes %s, %s is sent as %s, and arrives whole', async (takes, path, encoding) => {
    const answer = await ask(path, { headers: { 'accept-encoding': takes } });
    expect(answer.headers.get('content-encoding')).toBe(encoding);
    expect(answer.headers.get('vary')).toBe('Accept-Encoding');
    expect(await answer.text()).toBe(path.includes('1234') ? 'export {};' : long);
  });

  test('a part of a file is that part as it is', async () => {
    const answer = await ask('/assets/long-5678.js', { headers: { range: 'bytes=100-199', 'accept-encoding': 'br' } });
    expect([answer.status, answer.headers.get('content-encoding')]).toEqual([206, null]);
    expect(await answer.text()).toBe(long.slice(100, 200));
  });

  test('a port that is taken is passed over', async () => {
    const second = await serve(served.port, folder);
    expect(second.port).toBeGreaterThan(served.port);
    expect((await fetch(second.url)).status).toBe(200);
    await second.close();
  });
});

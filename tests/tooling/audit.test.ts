import { createServer, type Server } from 'node:http';
import { gunzipSync } from 'node:zlib';
import { afterEach, describe, expect, test } from 'vitest';
import { scanPackages } from '../../scripts/setup/scan.mjs';

/** A registry on this machine that answers what npm's audit asks; it hands out no package. */
async function registry(answer: (asked: Readonly<Record<string, readonly string[]>>) => object | null): Promise<Server> {
  const server = createServer((request, response) => {
    const chunks: Buffer[] = [];
    request.on('data', (chunk: Buffer) => chunks.push(chunk));
    request.on('end', () => {
      const sent = Buffer.concat(chunks);
      const text = request.headers['content-encoding'] === 'gzip' ? gunzipSync(sent).toString() : sent.toString();
      const found = request.url?.endsWith('/advisories/bulk') === true ? answer(JSON.parse(text)) : null;
      if (found === null) response.writeHead(405).end('{"error":"method not allowed"}');
      else response.writeHead(200, { 'Content-Type': 'application/json' }).end(JSON.stringify(found));
    });
  });
  await new Promise<void>((done) => server.listen(0, '127.0.0.1', () => done()));
  return server;
}
const advisory = (severity: string): object => ({
  id: 1,
  url: 'about:blank',
  title: 'planted',
  severity,
  vulnerable_versions: '>=0.0.1',
  cwe: [],
  cvss: { score: 0, vectorString: null },
});

describe('the scan for known faults', () => {
  const before = process.env['npm_config_registry'];
  let server: Server | null = null;
  afterEach(() => {
    server?.close();
    if (before === undefined) delete process.env['npm_config_registry'];
    else process.env['npm_config_registry'] = before;
  });
  async function scannedWith(answer: Parameters<typeof registry>[0]): ReturnType<typeof scanPackages> {
    server = await registry(answer);
    const address = server.address();
    process.env['npm_config_registry'] =
      `http://127.0.0.1:${typeof address === 'object' && address !== null ? address.port : 0}/`;
    return await scanPackages();
  }

  test('asks of every package in the page, and fails on a grave fault', { timeout: 90_000 }, async () => {
    let asked: readonly string[] = [];
    const { failures } = await scannedWith((packages) => {
      asked = Object.keys(packages);
      return { zod: [advisory('high')] };
    });
    expect(asked).toEqual(expect.arrayContaining(['react', 'zod', 'zustand', 'howler', 'idb', 'soundswallower']));
    expect(failures).toEqual([expect.stringMatching(/^zod .* has a known fault \(high\)/)]);
  });

  test('says plainly when it was not answered', { timeout: 90_000 }, async () => {
    const { failures, remarks } = await scannedWith(() => null);
    expect(failures).toEqual([]);
    expect(remarks).toEqual(['known faults: not asked, the registry did not answer that question from here']);
  });
});

import { createServer, type Server } from 'node:http';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { scanPackages } from '../../scripts/setup/scan.mjs';

type Findings = Awaited<ReturnType<typeof scanPackages>>;

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
  const servers: Server[] = [];
  let asked: readonly string[] = [];
  let answered: Findings;
  let notAnswered: Findings;

  async function addressOf(answer: Parameters<typeof registry>[0]): Promise<string> {
    const server = await registry(answer);
    servers.push(server);
    const address = server.address();
    return `http://127.0.0.1:${typeof address === 'object' && address !== null ? address.port : 0}/`;
  }
  /** npm is started before this returns, so that several may look side by side, each at its own registry. */
  function scannedAt(address: string): ReturnType<typeof scanPackages> {
    process.env['npm_config_registry'] = address;
    return scanPackages();
  }

  beforeAll(async () => {
    const answers = await addressOf((packages) => {
      asked = Object.keys(packages);
      return { zod: [advisory('high')] };
    });
    const silent = await addressOf(() => null);
    [answered, notAnswered] = await Promise.all([scannedAt(answers), scannedAt(silent)]);
  }, 90_000);
  afterAll(() => {
    servers.forEach((server) => server.close());
    if (before === undefined) delete process.env['npm_config_registry'];
    else process.env['npm_config_registry'] = before;
  });

  test('asks of every package in the page, and fails on a grave fault', () => {
    expect(asked).toEqual(expect.arrayContaining(['react', 'zod', 'zustand', 'howler', 'idb', 'soundswallower']));
    expect(answered.failures).toEqual([expect.stringMatching(/^zod .* has a known fault \(high\)/)]);
  });

  test('says plainly when it was not answered', () => {
    expect(notAnswered.failures).toEqual([]);
    expect(notAnswered.remarks).toEqual(['known faults: not asked, the registry did not answer that question from here']);
  });
});

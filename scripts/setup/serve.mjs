import { createHash } from 'node:crypto';
import { existsSync, readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { createServer as createSecureServer } from 'node:https';
import { join } from 'node:path';
import compression from '@polka/compression';
import sirv from 'sirv';
import { root } from './root.mjs';

/** @typedef {import('node:http').Server | import('node:https').Server} Server */
/** @typedef {{ readonly key: string, readonly cert: string }} Keys */
/** @typedef {(server: Server) => void} Prepare what else a server is to do; called before it listens */
/** @typedef {{ readonly port: number, readonly url: string, readonly close: () => Promise<void> }} Served */

/**
 * The page talks to nobody: everything it loads comes from where it came from itself. Memos are played from blobs.
 * @param {readonly string[]} scripts what else may run: digests of what stands in the page itself
 * @param {readonly string[]} styles
 */
const contentSecurityPolicy = (scripts, styles) =>
  [
    "default-src 'self'",
    ["script-src 'self' 'wasm-unsafe-eval'", ...scripts].join(' '),
    "connect-src 'self'",
    ["style-src 'self'", ...styles].join(' '),
    "media-src 'self' blob:",
    "worker-src 'self'",
    "object-src 'none'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
  ].join('; ');

/** Sent with every answer, a refusal included. */
export const HEADERS = {
  'Content-Security-Policy': contentSecurityPolicy([], []),
  'Permissions-Policy': 'microphone=(self), camera=(), geolocation=(), display-capture=(), payment=(), usb=(), serial=()',
  'X-Content-Type-Options': 'nosniff',
  'X-Frame-Options': 'DENY',
  'Referrer-Policy': 'no-referrer',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
};

/**
 * The same for a page whose index.html holds its first styles, and a script, so that they need not be waited for: each is
 * allowed by its digest, and nothing else that stands in a page is.
 * @param {string} folder
 */
export function headersFor(folder) {
  const file = join(folder, 'index.html');
  const page = existsSync(file) ? readFileSync(file, 'utf8') : '';
  /** @param {RegExp} inside */
  const digests = (inside) =>
    Array.from(page.matchAll(inside), ([, text = '']) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`);
  const policy = contentSecurityPolicy(digests(/<script>([^]*?)<\/script>/g), digests(/<style>([^]*?)<\/style>/g));
  return { ...HEADERS, 'Content-Security-Policy': policy };
}

/** Files under assets/ carry a digest in their name and never change; everything else is asked for again each time. */
const CACHE_FOREVER = 'public, max-age=31536000, immutable';

/** What gets smaller: code, styles, lists, the engines' programs. Sound and the recognisers' numbers hardly do. */
const GETS_SMALLER = /text|javascript|json|xml|wasm/;

/** Brotli's middle: a third of the size within a blink, made anew for each browser that has not kept the page yet. */
const EFFORT = 5;

/**
 * A handler that answers from a folder and says 404 for what is not there: the recogniser relies on honest 404s.
 * @param {string} folder
 */
function pageHandler(folder) {
  const files = sirv(folder, {
    etag: true,
    setHeaders(response, pathname) {
      response.setHeader('Cache-Control', pathname.startsWith('/assets/') ? CACHE_FOREVER : 'no-cache');
      // The recogniser's files have no name ending to tell a type from, and nosniff wants one.
      if (/\/[^./]+$/.test(pathname)) response.setHeader('Content-Type', 'application/octet-stream');
    },
  });
  const headers = headersFor(folder);
  const smaller = compression({ brotli: true, level: EFFORT, mimes: GETS_SMALLER });
  /** @type {import('node:http').RequestListener} */
  const answer = (request, response) => {
    for (const [name, value] of Object.entries(headers)) response.setHeader(name, value);
    if (request.method !== 'GET' && request.method !== 'HEAD') {
      response.writeHead(405, { Allow: 'GET, HEAD' }).end();
      return;
    }
    response.setHeader('Vary', 'Accept-Encoding');
    // A part of a file is a part of what the file is, not of its smaller form.
    if (request.headers.range === undefined) smaller(request, response);
    files(request, response, () => {
      response.writeHead(404, { 'Content-Type': 'text/plain; charset=utf-8' });
      response.end('Not found\n');
    });
  };
  return answer;
}

/**
 * @param {Server} server
 * @param {string} host
 * @param {number} port
 * @returns {Promise<'listening' | 'taken' | 'no-such-address'>}
 */
function listen(server, host, port) {
  return new Promise((done, fail) => {
    server.once('error', (/** @type {NodeJS.ErrnoException} */ error) => {
      if (error.code === 'EADDRINUSE' || error.code === 'EACCES') done('taken');
      else if (error.code === 'EADDRNOTAVAIL' || error.code === 'EAFNOSUPPORT') done('no-such-address');
      else fail(error);
    });
    server.listen(port, host, () => done('listening'));
  });
}

/** @param {readonly Server[]} servers */
const closeAll = (servers) =>
  Promise.all(
    servers.map((server) => {
      server.closeAllConnections();
      return new Promise((done) => void server.close(done));
    }),
  );

/**
 * Serves a folder to this machine alone, on both of localhost's addresses, at the wanted port or the first free one after it;
 * with port 0 at any free one.
 * @param {number} wantedPort
 * @param {string} [folder] what is served: the built page
 * @param {Prepare} [prepare]
 * @returns {Promise<Served>}
 */
export async function serve(wantedPort, folder = join(root, 'dist'), prepare = () => undefined) {
  const handler = pageHandler(folder);
  for (let port = wantedPort; port <= Math.min(wantedPort + 100, 65_535); port += 1) {
    const first = createServer(handler);
    prepare(first);
    if ((await listen(first, '127.0.0.1', port)) !== 'listening') continue;
    const address = first.address();
    const taken = address !== null && typeof address === 'object' ? address.port : port;
    // A browser may try ::1 first; were another program there, it would answer in our place.
    const second = createServer(handler);
    prepare(second);
    const outcome = await listen(second, '::1', taken);
    if (outcome === 'taken') {
      await closeAll([first]);
      continue;
    }
    const servers = outcome === 'listening' ? [first, second] : [first];
    return { port: taken, url: `http://localhost:${taken}/`, close: async () => void (await closeAll(servers)) };
  }
  throw noPort(wantedPort);
}

/** @param {number} wantedPort */
const noPort = (wantedPort) => new Error(`No free port from ${wantedPort} to ${wantedPort + 100}.`);

/**
 * Serves a folder over HTTPS to every machine that can reach this one, at the wanted port or the first free one after it.
 * `host` is the name or number that the address is given with.
 * @param {number} wantedPort
 * @param {Keys} keys
 * @param {string} host
 * @param {string} [folder] what is served: the built page
 * @param {Prepare} [prepare]
 * @returns {Promise<Served>}
 */
export async function serveSecurely(wantedPort, keys, host, folder = join(root, 'dist'), prepare = () => undefined) {
  const handler = pageHandler(folder);
  for (let port = wantedPort; port <= Math.min(wantedPort + 100, 65_535); port += 1) {
    const server = createSecureServer({ ...keys, minVersion: 'TLSv1.2' }, handler);
    prepare(server);
    if ((await listen(server, '0.0.0.0', port)) !== 'listening') continue;
    const address = server.address();
    const taken = address !== null && typeof address === 'object' ? address.port : port;
    return { port: taken, url: `https://${host}:${taken}/`, close: async () => void (await closeAll([server])) };
  }
  throw noPort(wantedPort);
}

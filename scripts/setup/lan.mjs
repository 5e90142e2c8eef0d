import { hostname, networkInterfaces } from 'node:os';
import { renderUnicodeCompact } from 'uqr';
import { ensureCertificate } from './certificate.mjs';
import { serveSecurely } from './serve.mjs';

/** @typedef {import('./serve.mjs').Served} Served */

/** The port on the network: the same every day, since what a browser keeps belongs to the address. */
const USUAL_PORT = 4443;

/** This computer's addresses on its networks (IPv4), those of home and shop networks first. */
export function lanAddresses() {
  const own = Object.values(networkInterfaces())
    .flatMap((each) => each ?? [])
    .filter(({ family, internal }) => family === 'IPv4' && !internal)
    .map(({ address }) => address);
  const isPrivate = (/** @type {string} */ address) => /^(192\.168|10|172\.(1[6-9]|2\d|3[01]))\./.test(address);
  return own.sort((a, b) => Number(isPrivate(b)) - Number(isPrivate(a)));
}

/**
 * What is said in the terminal once the page is on the network.
 * @param {{
 *   readonly url: string, readonly others: readonly string[], readonly certFile: string, readonly fingerprint: string,
 *   readonly made: boolean, readonly code: string | null,
 * }} about
 */
export function announcement({ url, others, certFile, fingerprint, made, code }) {
  const lines = [
    `On this network: ${url}${others.length === 0 ? '' : `  (or ${others.join(', ')})`}`,
    '',
    renderUnicodeCompact(url, { border: 2 }),
    '',
    `The connection is encrypted with a certificate that this computer ${made ? 'has just made' : 'made'} for itself.`,
    'So the browser will warn that the connection is not private, or the certificate not known: it cannot know this computer.',
    'Go on only if the fingerprint that the browser shows (under "certificate") is this one:',
    `  ${fingerprint}`,
    'Then choose "Advanced" and go on to the page. It works from then on, microphone included, while this computer serves it.',
    'Browsers keep a page for use without a network only where they trust its certificate. To have that too, copy this file to',
    'the tablet and install it there as a trusted certificate (in its settings, under security or profiles):',
    `  ${certFile}`,
    'Whoever has the key that lies beside that file can pass for any site on a device that trusts it: keep it on this computer.',
  ];
  if (code !== null)
    lines.push('', `Code for working together: ${code}  (on each page: Jobs, "Work together with another device")`);
  return `${lines.join('\n')}\n`;
}

/**
 * Serves the page over HTTPS on this computer's networks; gives what is running and what to say about it.
 * @param {{
 *   readonly code?: string | null, readonly prepare?: import('./serve.mjs').Prepare, readonly folder?: string,
 *   readonly port?: number,
 * }} [options]
 * @returns {Promise<{ readonly served: Served, readonly text: string }>}
 */
export async function serveOnNetwork({ code = null, prepare, folder, port = USUAL_PORT } = {}) {
  const addresses = lanAddresses();
  const [first = '127.0.0.1', ...more] = addresses;
  const name = hostname()
    .toLowerCase()
    .replace(/\.local$/, '');
  // Names that a certificate cannot hold, underscores for one, are left out: the address does as well.
  const names = /^[a-z0-9-]+$/.test(name) ? ['localhost', name, `${name}.local`] : ['localhost'];
  const { key, cert, ...certificate } = await ensureCertificate(names, ['127.0.0.1', ...addresses]);
  const served = await serveSecurely(port, { key, cert }, first, folder, prepare);
  const others = more.map((address) => `https://${address}:${served.port}/`);
  const text = announcement({ url: served.url, others, code, ...certificate });
  return { served, text };
}

import { X509Certificate } from 'node:crypto';
import { existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { homedir } from 'node:os';
import { join } from 'node:path';
import { generate } from 'selfsigned';

/**
 * @typedef {{
 *   readonly key: string, readonly cert: string, readonly certFile: string, readonly fingerprint: string, readonly made: boolean,
 * }} Certificate
 */

const DAY_MS = 86_400_000;
/** Browsers refuse certificates that hold for longer. */
const HOLDS_DAYS = 397;
/** Made anew when it has less than this left, so that it does not end in the middle of a job. */
const LEAST_LEFT_DAYS = 30;

/** The person's own folder for settings, outside of the project: SWARFSIDE_HOME, or where the system keeps such things. */
export function userFolder() {
  const { SWARFSIDE_HOME, XDG_CONFIG_HOME, APPDATA } = process.env;
  if (SWARFSIDE_HOME) return SWARFSIDE_HOME;
  if (process.platform === 'win32' && APPDATA) return join(APPDATA, 'Swarfside');
  if (process.platform === 'darwin') return join(homedir(), 'Library/Application Support/Swarfside');
  return join(XDG_CONFIG_HOME || join(homedir(), '.config'), 'swarfside');
}

/**
 * Whether a certificate is for all these names and numbers, and holds long enough.
 * @param {string} cert PEM
 * @param {readonly string[]} names
 * @param {readonly string[]} addresses
 * @param {number} now milliseconds since 1970
 */
export function willDo(cert, names, addresses, now) {
  const certificate = new X509Certificate(cert);
  const left = new Date(certificate.validTo).getTime() - now;
  return (
    left > LEAST_LEFT_DAYS * DAY_MS &&
    names.every((name) => certificate.checkHost(name) !== undefined) &&
    addresses.every((address) => certificate.checkIP(address) !== undefined)
  );
}

/**
 * The certificate of this computer for its own network, made at the first use and kept in `folder`; the key is readable for its
 * owner alone. It is made anew when an address is missing in it or it ends soon. It signs itself, and is marked as an authority
 * so that phones and tablets let a person trust it.
 * @param {readonly string[]} names
 * @param {readonly string[]} addresses
 * @param {{ readonly folder?: string, readonly now?: number }} [where]
 * @returns {Promise<Certificate>}
 */
export async function ensureCertificate(names, addresses, { folder = userFolder(), now = Date.now() } = {}) {
  const certFile = join(folder, 'swarfside-certificate.pem');
  const keyFile = join(folder, 'swarfside-key.pem');
  const fingerprint = (/** @type {string} */ pem) => new X509Certificate(pem).fingerprint256;
  if (existsSync(certFile) && existsSync(keyFile)) {
    const cert = readFileSync(certFile, 'utf8');
    if (willDo(cert, names, addresses, now)) {
      return { key: readFileSync(keyFile, 'utf8'), cert, certFile, fingerprint: fingerprint(cert), made: false };
    }
  }
  const made = await generate([{ name: 'commonName', value: 'Swarfside on this computer' }], {
    keyType: 'ec',
    curve: 'P-256',
    algorithm: 'sha256',
    notBeforeDate: new Date(now - DAY_MS),
    notAfterDate: new Date(now - DAY_MS + HOLDS_DAYS * DAY_MS),
    extensions: [
      { name: 'basicConstraints', cA: true, pathLenConstraint: 0, critical: true },
      { name: 'keyUsage', digitalSignature: true, keyCertSign: true, critical: true },
      { name: 'extKeyUsage', serverAuth: true },
      {
        name: 'subjectAltName',
        altNames: [
          ...names.map((value) => ({ type: /** @type {2} */ (2), value })),
          ...addresses.map((ip) => ({ type: /** @type {7} */ (7), ip })),
        ],
      },
    ],
  });
  mkdirSync(folder, { recursive: true, mode: 0o700 });
  writeFileSync(keyFile, made.private, { mode: 0o600 });
  writeFileSync(certFile, made.cert);
  return { key: made.private, cert: made.cert, certFile, fingerprint: fingerprint(made.cert), made: true };
}

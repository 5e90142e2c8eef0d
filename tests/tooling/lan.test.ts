import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { request } from 'node:https';
import { X509Certificate } from 'node:crypto';
import type { IncomingHttpHeaders } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import decodeQR from 'qr/decode.js';
import { afterAll, beforeAll, describe, expect, test, vi } from 'vitest';
import { ensureCertificate, userFolder, willDo } from '../../scripts/setup/certificate.mjs';
import { announcement, serveOnNetwork } from '../../scripts/setup/lan.mjs';
import { HEADERS, type Served } from '../../scripts/setup/serve.mjs';
import { root } from '../../scripts/setup/root.mjs';

const folder = mkdtempSync(join(tmpdir(), 'swarfside-lan-'));
const page = join(folder, 'dist');
const home = join(folder, 'home');
const DAY_MS = 86_400_000;
const NOW = Date.UTC(2026, 5, 1);

beforeAll(() => {
  mkdirSync(page);
  writeFileSync(join(page, 'index.html'), '<!doctype html><title>planted</title>');
  writeFileSync(join(folder, 'secret.txt'), 'outside of the build');
});
afterAll(() => rmSync(folder, { recursive: true }));

describe('the certificate of this computer', () => {
  test('is made once, kept with a key that only its owner reads, and made anew when it ends soon or an address is new', async () => {
    const names = ['localhost', 'shop'];
    const first = await ensureCertificate(names, ['192.0.2.7'], { folder: home, now: NOW });
    expect(first.made).toBe(true);
    expect(statSync(join(home, 'swarfside-key.pem')).mode & 0o077).toBe(0);
    const again = await ensureCertificate(names, ['192.0.2.7'], { folder: home, now: NOW + 300 * DAY_MS });
    expect([again.made, again.cert, again.key]).toEqual([false, first.cert, first.key]);
    expect((await ensureCertificate(names, ['192.0.2.7'], { folder: home, now: NOW + 380 * DAY_MS })).made).toBe(true);
    expect((await ensureCertificate(names, ['192.0.2.8'], { folder: home, now: NOW + 381 * DAY_MS })).made).toBe(true);
  });

  test('names what it is for and may not sign further authorities', async () => {
    const { cert, fingerprint } = await ensureCertificate(['localhost'], ['192.0.2.9'], {
      folder: join(folder, 'other'),
      now: NOW,
    });
    const certificate = new X509Certificate(cert);
    expect(certificate.subjectAltName).toBe('DNS:localhost, IP Address:192.0.2.9');
    expect(certificate.verify(certificate.publicKey)).toBe(true);
    expect(fingerprint).toMatch(/^([0-9A-F]{2}:){31}[0-9A-F]{2}$/);
    expect(willDo(cert, ['localhost'], ['192.0.2.9'], NOW)).toBe(true);
    expect(willDo(cert, ['elsewhere'], [], NOW)).toBe(false);
  });

  test('lies in the folder of the person, outside of the project', () => {
    vi.stubEnv('SWARFSIDE_HOME', '');
    expect(userFolder().startsWith(root)).toBe(false);
    vi.stubEnv('SWARFSIDE_HOME', home);
    expect(userFolder()).toBe(home);
    vi.unstubAllEnvs();
  });
});

/** The QR code in a text of half blocks, light on dark as a terminal draws it, photographed: eight pixels a module. */
function photographed(text: string): { readonly width: number; readonly height: number; readonly data: Uint8Array } {
  const rows = text.split('\n').filter((line) => /^[█▀▄ ]{20,}$/.test(line));
  const light = rows.flatMap((row) => [
    [...row].map((block) => block === '█' || block === '▀'),
    [...row].map((block) => block === '█' || block === '▄'),
  ]);
  const [width, height] = [(light[0]?.length ?? 0) * 8, light.length * 8];
  const data = new Uint8Array(width * height * 4).fill(255);
  for (let y = 0; y < height; y += 1)
    for (let x = 0; x < width; x += 1)
      if (light[Math.floor(y / 8)]?.[Math.floor(x / 8)] !== true) data.fill(0, (y * width + x) * 4, (y * width + x) * 4 + 3);
  return { width, height, data };
}

describe('the page on the network', () => {
  let served: Served;
  let text: string;
  beforeAll(async () => {
    vi.stubEnv('SWARFSIDE_HOME', home);
    ({ served, text } = await serveOnNetwork({ folder: page, port: 0, code: 'ABCDE-FGHJK' }));
  });
  afterAll(async () => {
    vi.unstubAllEnvs();
    await served.close();
  });

  /** Asks as a device that trusts the certificate does: the connection fails unless name and certificate agree. */
  const ask = (path: string, trusted = true): Promise<{ status: number; headers: IncomingHttpHeaders; body: string }> =>
    new Promise((resolve, reject) => {
      const ca = trusted ? { ca: readFileSync(join(home, 'swarfside-certificate.pem')) } : {};
      request({ host: '127.0.0.1', port: served.port, path, agent: false, ...ca }, (answer) => {
        let body = '';
        answer.on('data', (piece) => (body += String(piece)));
        answer.on('end', () => resolve({ status: answer.statusCode ?? 0, headers: answer.headers, body }));
      })
        .on('error', reject)
        .end();
    });

  test('is served over HTTPS to who trusts the certificate, and to nobody else', async () => {
    expect((await ask('/')).body).toContain('planted');
    await expect(ask('/', false)).rejects.toThrow(/self-signed certificate/);
  });

  test.each(['/', '/absent'])('carries every header of the page with %s', async (path) => {
    const { headers } = await ask(path);
    for (const [name, value] of Object.entries(HEADERS)) expect(headers[name.toLowerCase()]).toBe(value);
  });

  test.each([
    '/../secret.txt',
    '/%2e%2e/secret.txt',
    '/..%2fsecret.txt',
    '//secret.txt',
    '/%5c..%5csecret.txt',
    '/share/jobs',
    '/swarfside-key.pem',
  ])('%s is not there', async (path) => {
    const { status, body } = await ask(path);
    expect([status, body]).toEqual([404, 'Not found\n']);
  });

  test('is announced with address, QR code, fingerprint, what the browser will warn of, and how to trust it', () => {
    expect(text).toContain(`On this network: ${served.url}`);
    expect(decodeQR(photographed(text))).toBe(served.url);
    expect(text).toContain(new X509Certificate(readFileSync(join(home, 'swarfside-certificate.pem'))).fingerprint256);
    expect(text).toMatch(/the browser will warn that the connection is not private/);
    expect(text).toContain(join(home, 'swarfside-certificate.pem'));
    expect(text).toContain('Code for working together: ABCDE-FGHJK');
    const plain = {
      url: 'https://192.0.2.7:4443/',
      others: ['https://192.0.2.8:4443/'],
      certFile: 'x',
      fingerprint: 'y',
      made: false,
      code: null,
    };
    expect(announcement(plain)).toContain('(or https://192.0.2.8:4443/)');
    expect(announcement(plain)).not.toContain('Code');
  });
});

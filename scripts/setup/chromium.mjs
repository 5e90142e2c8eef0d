import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { execute, executeNode } from './execute.mjs';
import { say } from './root.mjs';

/** Names under which a Chromium is found on the path, the freest first. */
const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome', 'microsoft-edge'];

/** Where the installers of other systems put it. */
const PLACES = [
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
];

const APT_GET = '/usr/bin/apt-get';

/** Every file that may be a Chromium, best first: the named one alone where SWARFSIDE_CHROMIUM is set. */
async function candidates() {
  const named = process.env['SWARFSIDE_CHROMIUM'];
  if (named !== undefined && named !== '') return [named];
  const onPath = (process.env['PATH'] ?? '').split(delimiter).flatMap((folder) => NAMES.map((name) => join(folder, name)));
  const { chromium } = await import('playwright-core');
  return [...onPath, ...PLACES, chromium.executablePath()].filter((file) => existsSync(file));
}

/**
 * Whether a browser starts here at all: a download without its system libraries, or the stub that some systems install in
 * place of the browser, does not.
 * @param {string} file
 */
async function starts(file) {
  // Windows' browsers print no version and stay open; there the file itself has to be proof enough.
  if (process.platform === 'win32') return true;
  const { code, output } = await execute(file, ['--version', '--no-sandbox'], { capture: true, timeoutMs: 20_000 });
  return code === 0 && /\d+\.\d+/.test(output);
}

/** The Chromium that the browser tests use, or null. Needs the packages to be installed. */
export async function findChromium() {
  for (const file of new Set(await candidates())) if (await starts(file)) return file;
  return null;
}

/** Finds a Chromium, or fetches one: Playwright's own download first, then Debian's package. Null when nothing helped. */
export async function ensureChromium() {
  const found = await findChromium();
  if (found !== null || process.env['SWARFSIDE_CHROMIUM']) return found;
  say('Fetching a Chromium for the browser tests …');
  await executeNode('node_modules/playwright-core/cli.js', ['install', 'chromium'], {
    env: { PLAYWRIGHT_DOWNLOAD_CONNECTION_TIMEOUT: '15000' },
    timeoutMs: 240_000,
  });
  const downloaded = await findChromium();
  if (downloaded !== null || process.getuid?.() !== 0 || !existsSync(APT_GET)) return downloaded;
  say("Installing Debian's chromium package …");
  const env = { DEBIAN_FRONTEND: 'noninteractive' };
  await execute(APT_GET, ['update', '-qq'], { env, timeoutMs: 120_000 });
  await execute(APT_GET, ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], { env, timeoutMs: 300_000 });
  return await findChromium();
}

import { spawn } from 'node:child_process';
import { appendFileSync, readdirSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { findChromium } from '../../../scripts/setup/chromium.mjs';
import { QUIET_FLAGS } from '../quiet-flags.ts';

/** Flags that leave out what a page to be killed does not need: measured here, they halve what a start costs. */
const FLAGS = [
  ...QUIET_FLAGS,
  '--in-process-gpu',
  '--no-zygote',
  '--disable-breakpad',
  '--disable-component-extensions-with-background-pages',
  '--disable-search-engine-choice-screen',
  '--mute-audio',
  '--disable-features=OptimizationHints,MediaRouter,Translate,AutofillServerCommunication,PreloadTopChromeWebUI' +
    ',SpareRendererForSitePerProcess',
  '--enable-features=NetworkServiceInProcess2',
];

export type BareBrowser = {
  /** Resolves when it has ended, killed or by itself. */
  readonly gone: Promise<void>;
  readonly kill: () => Promise<void>;
};

/**
 * Opens an address in a Chromium of its own process group; `kill` ends all of it at once, as a power cut would. A window without
 * tabs and buttons saves their own pages. `oneProcess` runs page, store and browser as threads of one process, which halves the
 * cost once more: the store writes the same files through the same code.
 */
export async function bareBrowser(
  profile: string,
  url: string,
  { oneProcess }: { readonly oneProcess: boolean },
): Promise<BareBrowser> {
  const program = await found();
  // Left behind by the browser that was killed before; it names a process that is gone.
  rmSync(join(profile, 'SingletonLock'), { force: true });
  const own = [...(oneProcess ? ['--single-process'] : []), `--user-data-dir=${profile}`, `--app=${url}`];
  const child = spawn(program, [...FLAGS, ...own], { stdio: 'ignore', detached: true });
  const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  return {
    gone,
    kill: async () => {
      if (child.pid !== undefined && child.exitCode === null && child.signalCode === null) process.kill(-child.pid, 'SIGKILL');
      await gone;
    },
  };
}

let program: Promise<string> | null = null;
const found = (): Promise<string> =>
  (program ??= findChromium().then((file) => {
    if (file === null) throw new Error('No Chromium: set SWARFSIDE_CHROMIUM to the browser program');
    return file;
  }));

/**
 * Leaves the database of a profile as a kill in the middle of a write leaves it: its log ends with the header of a record
 * (checksum, length 120, type 1) whose content never came. The browser takes that for the end, goes on behind it at the next
 * start, and at the start after takes it for damage and throws the whole database away.
 */
export function tearDatabase(profile: string): void {
  const folder = join(profile, 'Default', 'IndexedDB');
  const log = readdirSync(folder, { recursive: true, encoding: 'utf8' }).find((name) => /leveldb.\d+\.log$/.test(name));
  if (log === undefined) throw new Error('the profile has no database');
  appendFileSync(join(folder, log), Buffer.from([1, 2, 3, 4, 120, 0, 1]));
}

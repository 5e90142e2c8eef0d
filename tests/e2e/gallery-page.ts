import { mkdtempSync, rmSync } from 'node:fs';
import { createServer } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import react from '@vitejs/plugin-react';
import sirv from 'sirv';
import { build } from 'vite';
import { withoutEval } from '../../config/withoutEval.ts';
import { root } from '../../scripts/setup/root.mjs';
import { forgetProfile, freshProfile, launch, type Browser } from './harness.ts';

const gallery = 'src/screens/gallery/index.html';

/** Where the gallery of the screens is served; `folder` holds the built page. */
export type ServedGallery = { readonly url: string; readonly folder: string; readonly close: () => Promise<void> };

/** Builds the gallery of the screens into a folder of its own and serves it; what is not there is answered with nothing. */
export async function serveGallery(): Promise<ServedGallery> {
  const folder = mkdtempSync(join(tmpdir(), 'swarfside-gallery-'));
  await build({
    root,
    configFile: false,
    base: './',
    logLevel: 'error',
    plugins: [react(), withoutEval()],
    worker: { format: 'es' },
    build: { outDir: folder, emptyOutDir: true, rolldownOptions: { input: join(root, gallery) } },
  });
  const files = sirv(folder);
  const server = createServer((request, response) => {
    files(request, response, () => {
      response.writeHead(204).end();
    });
  });
  await new Promise<void>((listening) => {
    server.listen(0, '127.0.0.1', listening);
  });
  const at = server.address();
  return {
    url: `http://127.0.0.1:${typeof at === 'object' && at !== null ? at.port : 0}/${gallery}`,
    folder,
    close: async () => {
      server.closeAllConnections();
      await new Promise((closed) => server.close(closed));
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

export type Theme = 'light' | 'dark';
export type Room = { readonly width: number; readonly height: number };

/** The gallery in a browser of its own. */
export type Gallery = {
  readonly browser: Browser;
  /** Shows the scene that is open in this size and theme, still and without motion. */
  readonly look: (room: Room, theme: Theme) => Promise<void>;
  /** Opens a scene afresh and waits for its page. */
  readonly open: (scene: string, room: Room, theme: Theme) => Promise<void>;
  readonly close: () => Promise<void>;
};

export async function openGallery(): Promise<Gallery> {
  const served = await serveGallery();
  const profile = freshProfile();
  const browser = await launch({ profile });
  const { page } = browser;
  await page.goto(served.url);

  const look = async (room: Room, theme: Theme): Promise<void> => {
    await page.setViewportSize(room);
    await page.emulateMedia({ colorScheme: theme, reducedMotion: 'reduce', media: 'screen' });
    await page.locator(`[data-theme=${theme}]`).waitFor({ state: 'attached' });
  };
  return {
    browser,
    look,
    open: async (scene, room, theme) => {
      await page.evaluate((name) => {
        location.hash = '';
        location.hash = name;
      }, scene);
      await look(room, theme);
      await page.locator('.machine, .page-head').first().waitFor();
    },
    close: async () => {
      await browser.close();
      await served.close();
      forgetProfile(profile);
    },
  };
}

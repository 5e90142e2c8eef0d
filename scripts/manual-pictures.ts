/**
 * Makes the pictures of the manual from the demo jobs: the main states of the pages, as the gallery of the screens shows them.
 * Run: npx tsx scripts/manual-pictures.ts; needs a Chromium. Look at each before it is committed; all together they stay small.
 */
import { mkdirSync, mkdtempSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import react from '@vitejs/plugin-react';
import { build } from 'vite';
import { forgetProfile, freshProfile, launch } from '../tests/e2e/harness.ts';
import { root } from './setup/root.mjs';
import { serve } from './setup/serve.mjs';

type Picture = {
  readonly name: string;
  readonly scene: string;
  readonly size: keyof typeof SIZES;
  readonly dark?: boolean;
  readonly keys?: string;
};

const SIZES = { tablet: { width: 1024, height: 640 }, phone: { width: 390, height: 844 } } as const;
const PICTURES: readonly Picture[] = [
  { name: 'machine', scene: 'roughing', size: 'tablet' },
  { name: 'machine-dark', scene: 'at-size', size: 'tablet', dark: true },
  { name: 'machine-phone', scene: 'fresh', size: 'phone' },
  { name: 'caution', scene: 'caution', size: 'tablet' },
  { name: 'question', scene: 'question-sure', size: 'tablet' },
  { name: 'number-pad', scene: 'reading', size: 'tablet', keys: '1.00' },
  { name: 'four-jaw', scene: 'jaws', size: 'tablet' },
  { name: 'layout', scene: 'layout-inch', size: 'tablet' },
  { name: 'record', scene: 'record', size: 'tablet' },
  { name: 'jobs-phone', scene: 'jobs', size: 'phone' },
];
const MOST_BYTES = 1_500_000;
const gallery = 'src/screens/gallery/index.html';
const pictures = join(root, 'docs/manual/pictures');

const folder = mkdtempSync(join(tmpdir(), 'swarfside-manual-'));
await build({
  root,
  configFile: false,
  base: './',
  logLevel: 'error',
  plugins: [react()],
  build: { outDir: folder, emptyOutDir: true, rolldownOptions: { input: join(root, gallery) } },
});
const served = await serve(0, folder);
const profile = freshProfile();
const browser = await launch({ profile });
mkdirSync(pictures, { recursive: true });
let bytes = 0;
try {
  const { page } = browser;
  await page.goto(`${served.url}${gallery}`);
  for (const { name, scene, size, dark = false, keys = '' } of PICTURES) {
    await page.emulateMedia({ colorScheme: dark ? 'dark' : 'light', reducedMotion: 'reduce' });
    await page.setViewportSize(SIZES[size]);
    await page.evaluate((wanted) => {
      location.hash = '';
      location.hash = wanted;
    }, scene);
    await page.locator('.machine, .page-head').first().waitFor();
    await page.evaluate(() => document.fonts.ready);
    // Pictures beside the target and pages of the desk are fetched.
    await page.waitForLoadState('networkidle');
    if (keys !== '') await page.keyboard.type(keys);
    const file = join(pictures, `${name}.png`);
    await page.screenshot({ path: file, animations: 'disabled', caret: 'hide' });
    bytes += statSync(file).size;
    process.stdout.write(`${name}.png ${Math.round(readFileSync(file).length / 1000)} kB\n`);
  }
} finally {
  await browser.close();
  await served.close();
  forgetProfile(profile);
  rmSync(folder, { recursive: true, force: true });
}
if (bytes > MOST_BYTES) {
  process.stderr.write(`The pictures are ${bytes} bytes together; ${MOST_BYTES} is the most.\n`);
  process.exitCode = 1;
}

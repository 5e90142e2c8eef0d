/**
 * Makes the pictures of the manual from the demo jobs: the main states of the pages, as the gallery of the screens shows them.
 * Run: npx tsx scripts/manual-pictures.ts [NAME…]; needs a Chromium. Look at each before it is committed. Fails where one is too
 * large, or all together.
 */
import { mkdirSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { openGallery } from '../tests/e2e/gallery-page.ts';
import { root } from './setup/root.mjs';

type Picture = {
  readonly name: string;
  readonly scene: string;
  readonly room: keyof typeof ROOMS;
  readonly dark?: boolean;
  /** Buttons that are pressed first, by the beginning of their name; then these keys are typed. */
  readonly press?: readonly string[];
  readonly keys?: string;
  /** What is scrolled to the top. */
  readonly from?: string;
  /** As it comes out on paper. */
  readonly printed?: boolean;
};

const ROOMS = {
  tablet: { width: 1024, height: 640 },
  desk: { width: 1120, height: 780 },
  phone: { width: 390, height: 844 },
  paper: { width: 695, height: 900 },
} as const;
const PICTURES: readonly Picture[] = [
  { name: 'machine', scene: 'roughing', room: 'tablet' },
  { name: 'last-cuts', scene: 'reading', room: 'tablet' },
  { name: 'at-size-dark', scene: 'at-size', room: 'tablet', dark: true },
  { name: 'part-in-profile', scene: 'fresh', room: 'tablet', dark: true },
  { name: 'caution', scene: 'caution', room: 'tablet' },
  { name: 'question', scene: 'question-sure', room: 'tablet' },
  { name: 'number-pad', scene: 'reading', room: 'tablet', keys: '1.00' },
  { name: 'too-loud', scene: 'too-loud', room: 'tablet' },
  { name: 'four-jaw', scene: 'jaws', room: 'tablet' },
  { name: 'high-spot', scene: 'high-spot', room: 'tablet' },
  { name: 'machine-phone', scene: 'roughing', room: 'phone' },
  { name: 'layout', scene: 'layout-inch', room: 'desk' },
  { name: 'fits', scene: 'layout-inch', room: 'desk', press: ['Choose the fit'], from: '.fit-chooser' },
  {
    name: 'instruments',
    scene: 'layout-own-instruments',
    room: 'tablet',
    press: ['Machines'],
    from: '.layout-sheet section:has(.readings)',
  },
  { name: 'route', scene: 'layout-inch', room: 'desk', press: ['The route'] },
  { name: 'route-sheet', scene: 'layout-inch', room: 'paper', printed: true },
  { name: 'record', scene: 'record-made', room: 'desk' },
  { name: 'history', scene: 'record-made', room: 'desk', from: 'section:has(> .fit-pictures .history-drawing)' },
  { name: 'compare', scene: 'compare', room: 'desk' },
  { name: 'voice', scene: 'voice', room: 'desk' },
  { name: 'keys', scene: 'keys', room: 'desk' },
  { name: 'jobs-phone', scene: 'jobs', room: 'phone' },
];
const MOST_BYTES = 150_000;
const MOST_BYTES_TOGETHER = 2_000_000;
const folder = join(root, 'docs/manual/pictures');

const wanted = process.argv.slice(2);
const gallery = await openGallery();
mkdirSync(folder, { recursive: true });
try {
  const { page } = gallery.browser;
  for (const { name, scene, room, dark = false, press = [], keys = '', from = '', printed = false } of PICTURES) {
    if (wanted.length > 0 && !wanted.includes(name)) continue;
    await gallery.open(scene, ROOMS[room], dark ? 'dark' : 'light');
    await page.evaluate(() => document.fonts.ready);
    // Pictures beside the target are fetched after the page.
    await page
      .locator(scene.startsWith('question') ? '.question' : '.beside > svg, .caution-full, .page-head')
      .first()
      .waitFor();
    for (const button of press)
      await page
        .getByRole('button', { name: new RegExp(`^${button}`) })
        .first()
        .click();
    if (keys !== '') await page.keyboard.type(keys);
    if (printed) {
      await page.locator('.route-sheet').waitFor({ state: 'attached' });
      await page.emulateMedia({ media: 'print' });
    }
    await page.evaluate((top) => {
      if (top === '') scrollTo(0, 0);
      else document.querySelector(top)?.scrollIntoView({ block: 'start' });
    }, from);
    await page.screenshot({ path: join(folder, `${name}.png`), animations: 'disabled', caret: 'hide' });
  }
} finally {
  await gallery.close();
}
const sizes = readdirSync(folder).map((file) => [file, statSync(join(folder, file)).size] as const);
for (const [file, bytes] of sizes) process.stdout.write(`${file} ${Math.round(bytes / 1000)} kB\n`);
const together = sizes.reduce((sum, [, bytes]) => sum + bytes, 0);
const large = sizes.filter(([, bytes]) => bytes > MOST_BYTES).map(([file]) => file);
if (large.length > 0 || together > MOST_BYTES_TOGETHER) {
  process.stderr.write(`Too large: ${[...large, `${together} bytes together`].join(', ')}.\n`);
  process.exitCode = 1;
}

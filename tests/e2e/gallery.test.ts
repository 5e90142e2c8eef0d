import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import type { AxeResults } from 'axe-core';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { root } from '../../scripts/setup/root.mjs';
import { SCENES } from '../../src/screens/gallery/scenes.ts';
import { STEP_SCENES } from '../../src/screens/gallery/stepScenes.ts';
import { openGallery, type Gallery, type Theme } from './gallery-page.ts';
import { crowded, misplaced, tooSmall } from './gallery-looks.ts';
import { screenshot, type Browser } from './harness.ts';

/** The gallery of the screens, built and served: every state of the pages with the demo jobs, in a real browser. */
const axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

const SIZES = { tablet: { width: 1280, height: 800 }, phone: { width: 390, height: 844 }, laptop: { width: 1440, height: 900 } };
type Size = keyof typeof SIZES;

let gallery: Gallery;
let browser: Browser;

beforeAll(async () => {
  gallery = await openGallery();
  browser = gallery.browser;
  await browser.page.evaluate(axe);
}, 120_000);

afterAll(() => gallery.close());

const look = (size: Size, theme: Theme): Promise<void> => gallery.look(SIZES[size], theme);
const open = (scene: string, size: Size, theme: Theme): Promise<void> => gallery.open(scene, SIZES[size], theme);

/** What axe finds against WCAG 2.2 AA and good practice, with text contrast to AAA; or only the contrast. */
const axeFinds = (onlyContrast: boolean): Promise<string[]> =>
  browser.page.evaluate(async (contrast) => {
    const checker = (window as unknown as { axe: { run: (options: object) => Promise<AxeResults> } }).axe;
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const { violations } = await checker.run({
      resultTypes: ['violations'],
      ...(contrast
        ? { runOnly: ['color-contrast-enhanced'] }
        : { runOnly: { type: 'tag', values: tags }, rules: { 'color-contrast-enhanced': { enabled: true } } }),
    });
    return violations.map(
      (violation) => `${violation.id}: ${violation.nodes.map((node) => node.html.slice(0, 120)).join(' | ')}`,
    );
  }, onlyContrast);

const scenes = Object.keys(SCENES);
const atTheMachine = scenes.filter((name) => !/^(jobs|record|phrases|layout|voice|keys|compare)/.test(name));

describe('every state of the pages', () => {
  test.each(scenes)('"%s": axe finds nothing to mend, contrast to AAA in both themes', async (scene) => {
    await open(scene, 'tablet', 'light');
    const found = await axeFinds(false);
    await screenshot(browser.page, `${scene}-light`);
    await look('tablet', 'dark');
    found.push(...(await axeFinds(true)));
    await screenshot(browser.page, `${scene}-dark`);
    expect(found).toEqual([]);
  });

  test.each(atTheMachine)(
    '"%s": 20 mm to press on the tablet; nothing over anything else on tablet, phone and laptop',
    async (scene) => {
      await open(scene, 'tablet', 'dark');
      expect(await tooSmall(browser.page)).toEqual([]);
      const wrong: string[] = [];
      for (const size of Object.keys(SIZES) as Size[]) {
        await look(size, 'dark');
        if (size === 'phone') await screenshot(browser.page, `${scene}-phone`);
        wrong.push(...(await misplaced(browser.page)).map((what) => `${size}: ${what}`));
      }
      expect(wrong).toEqual([]);
    },
  );
});

/** The sheets of the desk that the scenes do not open on, and the fits to choose from, each with what it must show. */
test.each([
  ['layout-inch', 'Alt+1', '.layout-sheet .rows'],
  ['layout-own-instruments', 'Alt+3', '.readings .cell-says'],
  ['layout-inch', 'Alt+4', '.layout-sheet .route-step'],
  ['layout-metric', 'Choose the fit', '.fit-chooser'],
] as const)('"%s" under %s: axe finds nothing to mend, contrast to AAA in both themes', async (scene, way, shows) => {
  await open(scene, 'tablet', 'light');
  const { page } = browser;
  if (way.startsWith('Alt')) await page.keyboard.press(way);
  else await page.getByRole('button', { name: way }).first().click();
  await page.locator(shows).first().waitFor();
  const found = await axeFinds(false);
  await screenshot(page, `${scene}-${way}-light`);
  await look('tablet', 'dark');
  found.push(...(await axeFinds(true)));
  await screenshot(page, `${scene}-${way}-dark`);
  await look('phone', 'light');
  await screenshot(page, `${scene}-${way}-phone`);
  expect(found).toEqual([]);
  expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(SIZES.phone.width);
});

test('every step of both demos, just opened: nothing over anything else, nothing cut off', { timeout: 120_000 }, async () => {
  const wrong: string[] = [];
  for (const scene of Object.keys(STEP_SCENES)) {
    await open(scene, 'tablet', 'light');
    // The laptop has the proportions of the tablet, and everything its share.
    for (const size of ['tablet', 'phone'] as const) {
      await browser.page.setViewportSize(SIZES[size]);
      wrong.push(...(await misplaced(browser.page)).map((what) => `${scene} on the ${size}: ${what}`));
    }
  }
  expect(wrong).toEqual([]);
});

/*
 * Where the named parts of the main states stand, at three sizes. Boxes rather than pictures: they hold on machines with other
 * fonts (docs/decisions.md). `SWARFSIDE_GOLDEN=write` writes them anew; read the difference.
 */
const boxesFile = join(root, 'tests/e2e/golden/layout.json');
/** Left, top, width, height in hundredths of the window's width and height; of a page that scrolls, left and width alone. */
type Boxes = Readonly<Record<string, readonly (readonly number[])[]>>;
const boxesKept = (existsSync(boxesFile) ? JSON.parse(readFileSync(boxesFile, 'utf8')) : {}) as Record<string, Boxes>;
/** Another font breaks a line elsewhere, and its neighbours move by about a line of small text. */
const MAY_MOVE = 3;
const MAIN_STATES: readonly string[] = [
  ...['fresh', 'roughing', 'reading', 'at-size', 'bore', 'caution', 'jaws', 'high-spot', 'question-sure', 'all-done'],
  ...['jobs', 'layout-inch', 'record', 'voice', 'keys'],
];
const PARTS = {
  machine: ['.top-bar', '.step', '.target', '.beside', '.caution-full', '.amounts', '.conversation', '.big-button:not(.pad *)'],
  desk: ['.page-head', '.choices', '.layout-sheet', '.layout-beside', '.drawing', '.readings', '.key-list'],
} as const;

const boxesOf = (kind: keyof typeof PARTS): Promise<Boxes> =>
  browser.page.evaluate(
    ([parts, scrolls]) => {
      const share = (part: number, whole: number): number => Math.round((100 * part) / whole);
      const wide = document.documentElement.clientWidth;
      const entries = parts.map((part) => {
        const shown = [...document.querySelectorAll(part)].map((element) => element.getBoundingClientRect());
        return [
          part,
          shown
            .filter(({ width }) => width > 0)
            .map(({ left, top, width, height }) =>
              scrolls
                ? [share(left, wide), share(width, wide)]
                : [share(left, wide), share(top, innerHeight), share(width, wide), share(height, innerHeight)],
            ),
        ] as const;
      });
      return Object.fromEntries(entries.filter(([, boxes]) => boxes.length > 0));
    },
    [PARTS[kind], kind === 'desk'] as const,
  );

/** Parts that came, went, or stand elsewhere. */
function moved(kept: Boxes | undefined, now: Boxes): string[] {
  const parts = [...new Set([...Object.keys(kept ?? {}), ...Object.keys(now)])];
  return parts.flatMap((part) => {
    const [before, after] = [kept?.[part] ?? [], now[part] ?? []];
    if (before.length !== after.length) return [`${part}: ${before.length} of them before, ${after.length} now`];
    const far = after.filter((box, at) => box.some((side, index) => Math.abs(side - (before[at]?.[index] ?? 0)) > MAY_MOVE));
    return far.length === 0 ? [] : [`${part}: ${JSON.stringify(before)} before, ${JSON.stringify(after)} now`];
  });
}

test.each(MAIN_STATES)('"%s" is laid out as it was, on tablet, phone and laptop', async (scene) => {
  const kind = atTheMachine.includes(scene) ? 'machine' : 'desk';
  await open(scene, 'tablet', 'light');
  for (const size of Object.keys(SIZES) as Size[]) {
    await look(size, 'light');
    // The pictures are fetched beside the page.
    if (kind === 'machine')
      await browser.page
        .locator(scene.startsWith('question') ? '.question' : '.beside > svg, .caution-full, .is-alone')
        .filter({ visible: true })
        .first()
        .waitFor();
    const name = `${scene} ${size}`;
    if (process.env['SWARFSIDE_GOLDEN'] === 'write') boxesKept[name] = await boxesOf(kind);
    // A drawing takes its width once it has been laid out.
    else
      await expect.poll(async () => moved(boxesKept[name], await boxesOf(kind)), { message: name, timeout: 10_000 }).toEqual([]);
  }
});

afterAll(() => {
  if (process.env['SWARFSIDE_GOLDEN'] !== 'write') return;
  const lines = Object.entries(boxesKept).map(([name, boxes]) => `${JSON.stringify(name)}: ${JSON.stringify(boxes)}`);
  writeFileSync(boxesFile, `{\n${lines.join(',\n')}\n}\n`);
});

/*
 * What a screen reader meets, in its order, in the main states. `SWARFSIDE_GOLDEN=write` writes them anew; read the difference.
 */
const READ_STATES = {
  machine: ['reading', null, '.machine'],
  'number-pad': ['roughing', 'Enter', '.pad.is-open'],
  question: ['question-which', null, '.question'],
  'desk-part': ['layout-inch', null, '.layout-sheet'],
  'desk-route': ['layout-inch', 'Alt+4', '.layout-sheet'],
  record: ['record', null, '.sheet'],
  voice: ['voice', null, '.desk'],
} as const;
/** Times of day, and what stands in for microphones, are those of the machine and the browser that run the test. */
const FAKE_MICROPHONE = /\n *- option "Fake .*"/g;
const TIME = /(\d{1,2} \w{3} \d{4}, )?\d{2}:\d{2}/g;

test.each(Object.entries(READ_STATES))('%s is read out in order, and nothing that lies under it', async (name, state) => {
  const [scene, key, shows] = state;
  await open(scene, 'tablet', 'light');
  if (key !== null) await browser.page.keyboard.press(key);
  await browser.page.locator(shows).waitFor();
  if (key === 'Alt+4') await browser.page.getByRole('button', { name: 'Begin the job' }).waitFor();
  // The pictures are fetched beside the page.
  if (scene === 'reading') await browser.page.locator('.beside > svg').waitFor();
  const order = `${(await browser.page.locator('body').ariaSnapshot()).replaceAll(TIME, '(time)').replaceAll(FAKE_MICROPHONE, '')}\n`;
  if (key === 'Enter') await browser.page.keyboard.press('Escape');
  const file = join(root, 'tests/e2e/golden/reading-order', `${name}.txt`);
  if (process.env['SWARFSIDE_GOLDEN'] === 'write') writeFileSync(file, order);
  else expect(order).toBe(readFileSync(file, 'utf8'));
});

test('the number pad is of the same size and shows what is typed', async () => {
  await open('reading', 'tablet', 'light');
  await browser.page.keyboard.type('1.0034');
  expect(await browser.page.locator('.pad button').count()).toBeGreaterThanOrEqual(16);
  expect(await tooSmall(browser.page)).toEqual([]);
  expect(await browser.page.locator('.pad-number').innerText()).toBe('1.0034');
  expect(await axeFinds(false)).toEqual([]);
});

test('what lies under a question or the number pad cannot be reached', async () => {
  for (const [scene, key, over] of [
    ['question-sure', null, '.question'],
    ['roughing', 'Enter', '.pad.is-open'],
  ] as const) {
    await open(scene, 'tablet', 'light');
    if (key !== null) await browser.page.keyboard.press(key);
    await browser.page.locator(over).waitFor();
    const within = await browser.page.locator(`${over} button`).count();
    for (let presses = 0; presses < within + 3; presses += 1) {
      await browser.page.keyboard.press('Tab');
      // Once round, the focus leaves the page for the browser itself.
      const where = await browser.page.evaluate((inside) => {
        const focused = document.activeElement;
        return focused === document.body || focused?.closest(inside) != null ? 'within' : focused?.textContent;
      }, over);
      expect(where, scene).toBe('within');
    }
    expect(await browser.page.locator('.button-row button').first().isVisible(), scene).toBe(false);
    await browser.page.keyboard.press('Escape');
  }
});

test('without a mouse: Tab reaches the row of buttons in order, and the focus can be seen', async () => {
  await open('roughing', 'tablet', 'light');
  const reached: string[] = [];
  for (let presses = 0; presses < 4; presses += 1) {
    await browser.page.keyboard.press('Tab');
    reached.push(
      await browser.page.evaluate(() => {
        const { outlineStyle, outlineWidth } = getComputedStyle(document.activeElement ?? document.body);
        const label = document.activeElement?.querySelector('.big-label')?.textContent ?? '';
        return outlineStyle !== 'none' && parseFloat(outlineWidth) >= 3 ? label : `${label} without a visible focus`;
      }),
    );
  }
  expect(reached).toEqual(['Reading', 'Hold to talk', 'Next', 'More']);
});

test.each(['layout-inch', 'layout-metric', 'layout-twenty'])('"%s": no size in the drawing lies over another', async (scene) => {
  await open(scene, 'tablet', 'light');
  for (const size of Object.keys(SIZES) as Size[]) {
    await look(size, 'light');
    // The drawing takes its width once it has been laid out.
    await expect.poll(() => crowded(browser.page), { message: size }).toEqual([]);
  }
});

// 210 mm or 8.5 in less two margins of 13 mm, at 96 px to the inch.
test.each([
  ['A4', 695],
  ['Letter', 717],
] as const)('the record is printed on %s without losing a column, and without its buttons', async (_sheet, width) => {
  await open('record', 'tablet', 'dark');
  await browser.page.emulateMedia({ media: 'print' });
  // Tall enough that no scroll bar takes from the width.
  await browser.page.setViewportSize({ width, height: 4000 });
  const { clientWidth, scrollWidth } = await browser.page.evaluate(() => {
    const { clientWidth: seen, scrollWidth: needed } = document.documentElement;
    return { clientWidth: seen, scrollWidth: needed };
  });
  expect([clientWidth, scrollWidth]).toEqual([width, width]);
  expect(await browser.page.locator('.readings thead').first().isVisible()).toBe(true);
  expect(await browser.page.locator('.page-head').isVisible()).toBe(false);
});

/** Sheets of paper in a PDF: its page objects. */
const sheetsIn = (pdf: Buffer): number => pdf.toString('latin1').match(/\/Type\s*\/Page\b(?!s)/g)?.length ?? 0;

test.each([
  ['A4', 695],
  ['Letter', 717],
] as const)('the route sheet is printed on %s: every step, on few sheets, no column cut', async (format, width) => {
  await open('layout-inch', 'tablet', 'dark');
  await browser.page.locator('.route-sheet').waitFor({ state: 'attached' });
  await browser.page.emulateMedia({ media: 'print' });
  await browser.page.setViewportSize({ width, height: 4000 });
  const { clientWidth, scrollWidth } = await browser.page.evaluate(() => {
    const { clientWidth: seen, scrollWidth: needed } = document.documentElement;
    return { clientWidth: seen, scrollWidth: needed };
  });
  expect([clientWidth, scrollWidth]).toEqual([width, width]);
  const steps = await browser.page.locator('.route-sheet tbody tr').count();
  expect(steps).toBeGreaterThan(15);
  expect(await browser.page.locator('.layout-room').isVisible()).toBe(false);
  const sheets = sheetsIn(await browser.page.pdf({ format, preferCSSPageSize: true }));
  expect(sheets).toBeGreaterThanOrEqual(1);
  // A dozen steps with their cautions and notes to a sheet, and the drawing before them.
  expect(sheets).toBeLessThanOrEqual(Math.ceil(steps / 8) + 1);
});

test('a dark screen prints on white, and every set-up of the route sheet has the same columns', async () => {
  await open('layout-inch', 'tablet', 'dark');
  await browser.page.locator('.route-sheet').waitFor({ state: 'attached' });
  await browser.page.emulateMedia({ media: 'print' });
  const { darkest, columns, passes } = await browser.page.evaluate(() => {
    const drawn = [...document.querySelectorAll('.route-sheet .drawing-part')].map((element) => getComputedStyle(element).fill);
    const fills = [getComputedStyle(document.body).backgroundColor, ...drawn.filter((fill) => fill !== 'none')].map((colour) =>
      Math.min(...(colour.match(/\d+/g)?.slice(0, 3).map(Number) ?? [])),
    );
    const tables = [...document.querySelectorAll('.sheet-steps thead tr')].map((row) =>
      [...row.children].map((cell) => Math.round(cell.getBoundingClientRect().left)).join(' '),
    );
    return {
      darkest: Math.min(...fills),
      columns: tables,
      passes: document.querySelector('.route-sheet')?.textContent.match(/equal last ones of/g)?.length ?? 0,
    };
  });
  expect(darkest).toBeGreaterThan(200);
  expect(columns.length).toBeGreaterThan(2);
  expect(new Set(columns).size).toBe(1);
  expect(passes).toBeGreaterThan(3);
});

test.each(['A4', 'Letter'] as const)('the card of what can be said goes on the two sides of one sheet of %s', async (format) => {
  await open('phrases', 'tablet', 'light');
  await browser.page.emulateMedia({ media: 'print' });
  expect(sheetsIn(await browser.page.pdf({ format, preferCSSPageSize: true }))).toBe(2);
});

test.each(['record-made', 'record-metric', 'record-own-instruments'])(
  '"%s" goes on the two sides of one sheet of A4',
  async (scene) => {
    await open(scene, 'tablet', 'light');
    await browser.page.emulateMedia({ media: 'print' });
    expect(sheetsIn(await browser.page.pdf({ format: 'A4', preferCSSPageSize: true }))).toBe(2);
  },
);

test('nothing went wrong in the browser meanwhile', () => {
  expect(browser.errors).toEqual([]);
});

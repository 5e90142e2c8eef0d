import { setTimeout as pause } from 'node:timers/promises';
import type { Page } from 'playwright-core';

/** Presses buttons of the page one after the other, each found by how its label begins. */
export async function press(page: Page, ...labels: readonly RegExp[]): Promise<void> {
  for (const label of labels) await page.getByRole('button', { name: label }).click();
}

/** Waits until a second press of the same button counts as one of its own, not as the shaking of the hand that pressed it. */
export const handAtRest = (): Promise<void> => pause(400);

/** The buttons from the first row to listening always, on the third page of the rest. */
export const TO_LISTEN_ALWAYS = [/^More/, /^More/, /^More/, /^Pages, sound/, /^More/, /^More/, /^Listen: always/] as const;

/** Listens always. Readings then need their verb. */
export const listenAlways = (page: Page): Promise<void> => press(page, ...TO_LISTEN_ALWAYS);

/** Goes from the first row of buttons to the record. */
export const openRecord = (page: Page): Promise<void> => press(page, /^More/, /^More/, /^More/, /^Pages, sound/, /^Record/);

/** Waits for an answer that contains this, as the page shows it. */
export const repliedWith = (page: Page, text: RegExp): Promise<void> => page.getByText(text).first().waitFor({ timeout: 60_000 });

/** The sizes in the table of the record that stand, in order. */
export async function recordedSizes(page: Page): Promise<readonly string[]> {
  await page.getByRole('heading', { name: 'Readings that stand' }).waitFor();
  return await page.locator('table.readings:not(.is-struck) td.size').allInnerTexts();
}

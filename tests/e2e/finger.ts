import type { CDPSession, Page } from 'playwright-core';

/** A finger on the glass: it touches what has a name, and moves no mouse. */
export type Finger = {
  /** Touches the middle of a button, or of another control, found by how its name begins; `within` narrows where. */
  readonly tap: (name: RegExp, within?: string, role?: 'button' | 'textbox' | 'combobox') => Promise<void>;
  /** Goes through buttons that come one after the other: each is touched once what it should bring is there. */
  readonly tapThrough: (...steps: readonly (readonly [name: RegExp, brings: RegExp])[]) => Promise<void>;
  /** From the first row of buttons at the machine to the pages. */
  readonly toPages: () => Promise<void>;
};

export async function fingerOn(page: Page): Promise<Finger> {
  const glass: CDPSession = await page.context().newCDPSession(page);
  await glass.send('Emulation.setTouchEmulationEnabled', { enabled: true });
  const tap: Finger['tap'] = async (name, within = 'body', role = 'button') => {
    const control = page.locator(within).getByRole(role, { name }).first();
    await control.scrollIntoViewIfNeeded();
    const box = await control.boundingBox();
    if (box === null) throw new Error(`${name.source} is not there to be touched`);
    const touchPoints = [{ x: box.x + box.width / 2, y: box.y + box.height / 2 }];
    await glass.send('Input.dispatchTouchEvent', { type: 'touchStart', touchPoints });
    await glass.send('Input.dispatchTouchEvent', { type: 'touchEnd', touchPoints: [] });
  };
  const tapThrough: Finger['tapThrough'] = async (...steps) => {
    for (const [name, brings] of steps) {
      await tap(name);
      await page.getByRole('button', { name: brings }).first().waitFor();
    }
  };
  return {
    tap,
    tapThrough,
    toPages: () => tapThrough([/^More/, /^Scratch that/], [/^More/, /^Ask/], [/^More/, /^Set-up/], [/^Pages, sound/, /^Record/]),
  };
}

import { afterAll, beforeAll } from 'vitest';
import { forgetProfile, freshProfile, launch, servePage, type Browser, type Served } from './harness.ts';

/** The built page on a port of its own, and a browser on a fresh profile. Both are there from the first hook or test on. */
export type ServedBrowser = { readonly served: Served; readonly browser: Browser };

/** Has both opened before the tests of this group and gone after them; hooks that are given later run with them there. */
export function servedBrowser(): ServedBrowser {
  const profile = freshProfile();
  let opened: { readonly served: Served; readonly browser: Browser };
  beforeAll(async () => {
    const served = await servePage();
    opened = { served, browser: await launch({ profile }) };
  });
  afterAll(async () => {
    await opened.browser.close();
    await opened.served.close();
    forgetProfile(profile);
  });
  return {
    get served() {
      return opened.served;
    },
    get browser() {
      return opened.browser;
    },
  };
}

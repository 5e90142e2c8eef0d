import { browserCopy } from './browserCopy.ts';
import { browserPages, SHELF_NAME } from './browserPages.ts';
import { memoryPages } from './memoryPages.ts';
import type { Shelf } from './shelf.ts';
import { shelfOver } from './shelfOver.ts';

/** The shelf in this browser's own store. `name` sets another database, for tests; `now` is milliseconds since 1970. */
export const browserShelf = (now: () => number, name: string = SHELF_NAME): Shelf =>
  shelfOver(browserPages(name), now, browserCopy(name));

/** A shelf that is gone with the process: for the terminal and for tests. `room` is how many rows it holds before it is full. */
export const memoryShelf = (now: () => number, room?: number): Shelf => shelfOver(memoryPages(room), now);

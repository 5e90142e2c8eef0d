/**
 * What the machine page takes from the phrasebook's table: the rows behind "More", the keys of commands, the reading of a typed
 * size. Fetched once the page is drawn, and sooner by the first touch that needs it.
 */
export { deedOf, ROWS } from './buttonRows.ts';
export { commandWithKey, waitsForSecond } from './commandKeys.ts';
export { sizeIntent } from './sizeIntent.ts';

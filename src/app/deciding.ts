/** What decides what becomes of an intent, as one piece to fetch. */
export { decide } from '../job/index.ts';

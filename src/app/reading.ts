/** What makes sense of words that were heard or typed, as one piece to fetch. */
export { interpret, interpretTyped } from '../phrasebook/index.ts';

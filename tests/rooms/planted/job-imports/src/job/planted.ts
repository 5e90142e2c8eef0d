import { thing } from '../phrasebook/index.ts';

export const planted = thing;

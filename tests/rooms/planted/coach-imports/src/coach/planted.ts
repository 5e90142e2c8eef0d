import { thing } from '../job/index.ts';

export const planted = thing;

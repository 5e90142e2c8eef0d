import { thing } from '../trade/index.ts';

export const planted = thing;

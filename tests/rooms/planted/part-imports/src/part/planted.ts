import { thing } from '../route/index.ts';

export const planted = thing;

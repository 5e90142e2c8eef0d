import { thing } from '../cli/index.ts';

export const planted = thing;

import { thing } from './nowhere.ts';

export const planted = thing;

import { thing } from '../shelf/index.ts';

export const planted = thing;

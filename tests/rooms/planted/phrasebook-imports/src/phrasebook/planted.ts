import { thing } from '../ear/index.ts';

export const planted = thing;

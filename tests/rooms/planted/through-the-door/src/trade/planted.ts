import { thing } from '../measure/inner.ts';

export const planted = thing;

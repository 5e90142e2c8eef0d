import { thing } from '../part/index.ts';

export const planted = thing;

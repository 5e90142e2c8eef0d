import { thing } from '../voice/index.ts';

export const planted = thing;

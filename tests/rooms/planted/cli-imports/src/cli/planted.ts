import { thing } from '../screens/index.ts';

export const planted = thing;

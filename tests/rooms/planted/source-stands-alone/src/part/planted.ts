import { thing } from '../../tests/thing.ts';

export const planted = thing;

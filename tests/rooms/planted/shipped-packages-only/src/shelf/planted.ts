import { describe } from 'vitest';

export const planted = describe;

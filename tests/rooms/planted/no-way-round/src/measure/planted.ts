import type { There } from './there.ts';

export type Planted = There | null;

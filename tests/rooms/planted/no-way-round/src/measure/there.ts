import type { Planted } from './planted.ts';

export type There = { readonly back: Planted };

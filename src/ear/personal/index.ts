export { personalSchema, WARPS, type Personal } from './personal.ts';
export { fitPersonal, type Take, type View } from './fit.ts';
export { SETUP_PHRASES } from './phrases.ts';

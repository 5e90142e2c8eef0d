export { thing } from '../measure/index.ts';

export { openSwarfnet } from './swarfnet.ts';

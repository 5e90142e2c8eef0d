export { Screens } from './Screens.tsx';

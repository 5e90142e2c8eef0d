/** The pictures of the machine page, fetched beside it: the target and the buttons do not wait for them. */
export { Profile } from './Profile.tsx';
export { SetUpPicture } from './SetUpPicture.tsx';
export { Strip } from './Strip.tsx';

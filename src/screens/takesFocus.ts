/**
 * Whether a page that comes takes the focus. Not before anybody has pressed anything: the first page is read from its head as any
 * page of the web is, and to give a focus means to lay everything out at once.
 */
export const takesFocus = (): boolean => !('userActivation' in navigator) || navigator.userActivation.hasBeenActive;

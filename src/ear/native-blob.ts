/** Stands in for the recogniser package's blob shim (an alias of the build): every browser that runs this page has its own. */
export const Blob = globalThis.Blob;

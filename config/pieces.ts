/** The pieces of the first load, the lowest first: what each may import is in those before it. */
const PIECES: readonly (readonly [name: string, files: RegExp])[] = [
  ['react', /\/node_modules\/(react|react-dom|scheduler|zustand)\//],
  // With what fetches later pieces: among the screens, each of them would fetch the screens' styles again, which the page holds.
  ['libraries', /\/node_modules\/|vite\/preload-helper/],
  ['measure', /\/src\/(measure|trade)\//],
  ['fields', /\/src\/part\/(fields|limits|datum)\.ts/],
  ['features', /\/src\/part\/(chain|turned|milled|endFeature)\.ts/],
  ['part', /\/src\/(part|route|coach|setups)\//],
  ['job', /\/src\/(job|phrasebook)\//],
  ['shelf', /\/src\/(shelf|ear)\//],
  ['screens', /\/src\/screens\//],
];

/** The first load cut into one script a room, so that no one of them keeps the browser from drawing for long. */
export const pieces = {
  groups: PIECES.map(([name, files], at) => ({
    name,
    test: files,
    priority: PIECES.length - at,
    tags: ['$initial' as const],
  })),
};

/*
 * Which room may import which (docs: DEVELOPERS.md). `comment` says what a hit means; tests/rooms holds one planted
 * violation per rule, so that a rule that is mistyped and never fires fails a test.
 */

/**
 * Each room, the rooms that it may import besides itself, and what it means when it imports another.
 * @type {readonly (readonly [room: string, others: readonly string[], comment: string])[]}
 */
const ROOMS = [
  ['measure', [], 'Lengths, angles and units stand on nothing, so that everything can stand on them.'],
  ['trade', ['measure'], 'Trade knowledge is about quantities; it must not know any part, route or job.'],
  ['part', ['measure', 'trade'], 'A part says what is to be made; it must not know how, or who asks.'],
  ['route', ['measure', 'trade', 'part'], 'A route is made from a part; it must not know what has happened at the machine.'],
  [
    'coach',
    ['measure', 'trade', 'part', 'route'],
    'The coach weighs readings; whose readings they are, and what is said, belongs to the job.',
  ],
  [
    'setups',
    ['measure', 'trade', 'part', 'route'],
    'Arithmetic of set-ups; when it is asked for, and what is said, belongs to the job.',
  ],
  [
    'job',
    ['measure', 'trade', 'part', 'route', 'coach', 'setups'],
    'The log decides and folds without knowing words, sound, storage or screens.',
  ],
  [
    'phrasebook',
    ['measure', 'trade', 'part', 'route', 'coach', 'setups', 'job'],
    'Words become intents here; hearing and speaking are other rooms.',
  ],
  [
    'ear',
    ['measure', 'trade', 'part', 'route', 'coach', 'setups', 'job', 'phrasebook'],
    'The ear turns sound into words; what they mean, and what is answered, is decided elsewhere.',
  ],
  [
    'voice',
    ['measure', 'trade', 'part', 'route', 'coach', 'setups', 'job', 'phrasebook'],
    'The voice speaks replies; it neither hears nor stores.',
  ],
  [
    'shelf',
    ['measure', 'trade', 'part', 'route', 'coach', 'setups', 'job'],
    'The shelf keeps events and files; it knows no words, sound or screens.',
  ],
  [
    'screens',
    ['measure', 'trade', 'part', 'route', 'coach', 'setups', 'job', 'phrasebook', 'ear', 'voice', 'shelf', 'app'],
    'Screens show state and pass touches on; the terminal is not theirs.',
  ],
  [
    'app',
    ['measure', 'trade', 'part', 'route', 'coach', 'setups', 'job', 'phrasebook', 'ear', 'voice', 'shelf', 'screens'],
    'The page is put together here; the terminal is put together elsewhere.',
  ],
  [
    'cli',
    ['measure', 'trade', 'part', 'route', 'coach', 'setups', 'job', 'phrasebook', 'ear', 'voice', 'shelf', 'app'],
    'The terminal is the same pipeline without a page: no screens.',
  ],
];

const directions = ROOMS.map(([room, others, comment]) => ({
  name: `${room}-imports`,
  severity: 'error',
  comment,
  from: { path: `^src/${room}/` },
  to: { path: '^src/', pathNot: `^src/(${[room, ...others].join('|')})/` },
}));

module.exports = {
  forbidden: [
    ...directions,
    {
      name: 'through-the-door',
      severity: 'error',
      comment:
        "Another room is entered by its index.ts: code that is not exported there is that room's own business; data is not.",
      from: { path: '^src/([^/]+)/' },
      to: { path: '^src/[^/]+/', pathNot: ['^src/$1/', '^src/[^/]+/index\\.ts$', '\\.json$'] },
    },
    {
      name: 'no-way-round',
      severity: 'error',
      comment: 'Files that import each other in a circle cannot be read, tested or loaded one by one.',
      from: { path: '^src/' },
      to: { circular: true },
    },
    {
      name: 'react-in-screens',
      severity: 'error',
      comment: 'Only screens and app know React: every other room must run without a page.',
      from: { path: '^src/', pathNot: '^src/(screens|app)/' },
      to: { path: '(^|node_modules/)(react|react-dom|zustand)(/|$)' },
    },
    {
      name: 'core-without-platform',
      severity: 'error',
      comment: 'The core gives the same answer in a page and in the terminal: it uses no module of Node.',
      from: { path: '^src/(measure|trade|part|route|coach|setups|job|phrasebook|voice|shelf|screens|app)/' },
      to: { dependencyTypes: ['core'] },
    },
    {
      name: 'shipped-packages-only',
      severity: 'error',
      comment: 'The page may only use packages that are listed as dependencies, not tools for developing.',
      from: { path: '^src/', pathNot: '^src/cli/' },
      to: { dependencyTypes: ['npm-dev', 'npm-no-pkg', 'npm-unknown'] },
    },
    {
      name: 'source-stands-alone',
      severity: 'error',
      comment: 'Source never reaches into tests, scripts or configuration.',
      from: { path: '^src/' },
      to: { path: '^(tests|scripts|config)/' },
    },
    {
      name: 'nothing-missing',
      severity: 'error',
      comment: 'The import leads nowhere.',
      from: { path: '^src/' },
      to: { couldNotResolve: true, pathNot: '^virtual:|\\?' },
    },
  ],
  options: {
    doNotFollow: { path: 'node_modules' },
    // Importing a type is knowing it: type-only imports keep to the same directions.
    tsPreCompilationDeps: true,
    enhancedResolveOptions: { exportsFields: ['exports'], conditionNames: ['import', 'require', 'node', 'default', 'types'] },
  },
};

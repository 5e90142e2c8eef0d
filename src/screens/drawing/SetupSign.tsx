import type { ReactNode } from 'react';

/** Signs for what holds the work, drawn here: seen along the axis for a chuck, from the side for the rest. Ours. */
const SIGNS: readonly (readonly [words: RegExp, sign: ReactNode])[] = [
  [
    /four[- ]jaw/i,
    <>
      <circle cx="20" cy="20" r="17" />
      <circle cx="20" cy="20" r="6" />
      <path d="M20,3 V14 M20,26 V37 M3,20 H14 M26,20 H37" />
    </>,
  ],
  [
    /three[- ]jaw|\bchuck\b/i,
    <>
      <circle cx="20" cy="20" r="17" />
      <circle cx="20" cy="20" r="6" />
      <path d="M20,3 V14 M34.7,28.5 L25.2,23 M5.3,28.5 L14.8,23" />
    </>,
  ],
  [
    /collet/i,
    <>
      <circle cx="20" cy="20" r="17" />
      <circle cx="20" cy="20" r="7" />
      <path d="M20,13 V3 M20,27 V37 M13,20 H3 M27,20 H37" strokeDasharray="3 3" />
    </>,
  ],
  [/tailstock|centre/i, <path key="t" d="M37,12 H24 L5,20 L24,28 H37 Z" />],
  [
    /vee block/i,
    <>
      <path d="M4,36 V16 H10 L20,28 L30,16 H36 V36 Z" />
      <circle cx="20" cy="14" r="9" />
    </>,
  ],
  [
    /vice/i,
    <>
      <path d="M3,36 H37 M6,36 V14 H13 V30 H27 V14 H34 V36" />
      <rect x="13" y="17" width="14" height="10" />
    </>,
  ],
  [/steady|follow rest/i, <path key="s" d="M6,37 V12 A14,14 0 0 1 34,12 V37 M20,4 V13 M8,26 L15,22 M32,26 L25,22" />],
  [
    /dividing|indexing|index head/i,
    <>
      <circle cx="20" cy="20" r="15" />
      <path d="M20,5 V12 M35,20 H28 M20,35 V28 M5,20 H12 M20,20 L30,10" />
    </>,
  ],
];

/** The signs of what a holding names, as many as it names; they say nothing that the words beside them do not. */
export function SetupSign({ holding }: { readonly holding: string }) {
  const found = SIGNS.filter(([words]) => words.test(holding));
  // A four-jaw chuck is a chuck too.
  const signs = found.filter(
    ([words], index) => index === 0 || !(words.source.includes('chuck') && found[0]?.[0].source.includes('four')),
  );
  return (
    <span className="setup-signs" aria-hidden="true">
      {signs.slice(0, 3).map(([words, sign]) => (
        <svg key={words.source} viewBox="0 0 40 40">
          {sign}
        </svg>
      ))}
    </span>
  );
}

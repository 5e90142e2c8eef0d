/** The English of the set-up pictures; apart from `words.ts` because it is fetched with them. */
export const setUpWords = {
  jaws: 'Work in the four jaws, seen from the tailstock',
  jaw: (jaw: number, reading: string | null) => `Jaw ${jaw}: ${reading ?? 'not read'}`,
  loosen: 'loosen',
  tighten: 'tighten',
  read: 'read',
  spot: 'High spot by the turn of the work',
  spotAt: (degrees: number) => `high spot at ${degrees}°`,
  spotNext: 'next',
  degrees: (degrees: number) => `${degrees}°`,
  edges: 'Edge finder at the edge',
  tip: (size: string) => `tip Ø${size}`,
  end: (size: string) => `end at ${size}`,
  half: '½ tip',
  tap: 'Turns of the tap',
  turns: (done: string, all: string) => `${done} of ${all} turns`,
} as const;

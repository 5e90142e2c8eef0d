/** The English of the drawings; apart from `words.ts` because it is fetched with the desk. */
export const drawingWords = {
  title: 'The part from the side, with its sizes',
  empty: 'The drawing starts with the first feature.',
  limits: (low: string, high: string) => `${low}–${high}`,
  feature: (name: string, across: string | null, length: string | null) =>
    `${name === '' ? 'no name yet' : name}: ${across === null ? 'diameter not known' : `diameter ${across}`}, ${length === null ? 'length not known' : `length ${length}`}`,
  endView: 'Seen from the left end, with the high spots',
  highSpot: 'high',
  endFeature: (name: string, off: string) => `${name}: high spot ${off} off the axis`,
  history: {
    ofDialled: (off: string, dialled: string) => `${off} of ${dialled}`,
    larger: (by: string) => `${by} larger`,
  },
  fit: {
    title: (mate: string) => `The fit to ${mate}, to scale`,
    hole: 'hole',
    shaft: 'shaft',
    read: 'read',
    clearance: (least: string, most: string) => `clearance ${least} to ${most}`,
    interference: (least: string, most: string) => `interference ${least} to ${most}`,
    either: (tight: string, loose: string) => `from ${tight} tight to ${loose} loose`,
    now: (amount: string, tight: boolean) => `as read: ${amount} ${tight ? 'tight' : 'clear'}`,
    unproven: 'The mate is known too roughly to promise this fit: measure it with a finer instrument.',
  },
} as const;

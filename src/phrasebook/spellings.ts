import { FILLERS } from './restarts.ts';

/** Spellings that recognisers, typists and other Englishes use, each with the word of the phrasebook that it stands for. */
const SPELLINGS: Readonly<Record<string, readonly string[]>> = {
  o: ['oh'],
  naught: ['nought'],
  ought: ['nought'],
  aught: ['nought'],
  millimeter: ['millimetre'],
  millimeters: ['millimetres'],
  centimeter: ['centimetre'],
  centimeters: ['centimetres'],
  mm: ['millimetres'],
  mic: ['mike'],
  mics: ['mikes'],
  micd: ['mike'],
  miked: ['mike'],
  "mic'd": ['mike'],
  ok: ['okay'],
  callipers: ['calipers'],
  calliper: ['caliper'],
  thous: ['thou'],
  thirtysecond: ['thirty', 'second'],
  thirtyseconds: ['thirty', 'seconds'],
  sixtyfourth: ['sixty', 'fourth'],
  sixtyfourths: ['sixty', 'fourths'],
  fourty: ['forty'],
  halves: ['half'],
  halfs: ['half'],
  shouldnt: ["shouldn't"],
  wont: ["won't"],
  whats: ["what's"],
  dialled: ['dialed'],
  dialling: ['dialing'],
  micrometre: ['micrometer'],
  '&': ['and'],
};

/** The words of what was heard or typed: lower case, hyphens apart, punctuation gone, spellings settled, fillers dropped. */
export function wordsOf(text: string): readonly string[] {
  const found: string[] = [];
  for (const raw of text
    .toLowerCase()
    .replace(/[’]/g, "'")
    .split(/[^a-z0-9'.&/]+/)) {
    const word = raw.replace(/^['.]+|['.]+$/g, '');
    if (word === '' || Object.hasOwn(FILLERS, word)) continue;
    const settled = SPELLINGS[word];
    if (settled === undefined) found.push(word);
    else found.push(...settled);
  }
  return found;
}

import { FILLERS } from './restarts.ts';
import { figureWords } from './written-figures.ts';

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
  cm: ['centimetres'],
  rpm: ['r', 'p', 'm'],
  centre: ['center'],
  mic: ['mike'],
  mics: ['mikes'],
  micd: ['mike'],
  miked: ['mike'],
  "mic'd": ['mike'],
  ok: ['okay'],
  callipers: ['calipers'],
  calliper: ['caliper'],
  thous: ['thou'],
  thirtysecondths: ['thirty', 'seconds'],
  thirtysecond: ['thirty', 'second'],
  thirtyseconds: ['thirty', 'seconds'],
  sixtyfourth: ['sixty', 'fourth'],
  sixtyfourths: ['sixty', 'fourths'],
  sixtyforth: ['sixty', 'fourth'],
  sixtyforths: ['sixty', 'fourths'],
  forth: ['fourth'],
  forths: ['fourths'],
  eights: ['eighths'],
  fourty: ['forty'],
  halves: ['half'],
  halfs: ['half'],
  wont: ["won't"],
  whats: ["what's"],
  wheres: ["where's"],
  hows: ["how's"],
  im: ["i'm"],
  thats: ["that's"],
  doesnt: ["doesn't"],
  dont: ["don't"],
  cant: ["can't"],
  nevermind: ['never', 'mind'],
  dialled: ['dialed'],
  dialling: ['dialing'],
  micrometre: ['micrometer'],
  '&': ['and'],
};

const spelled = (word: string): readonly string[] | undefined => (Object.hasOwn(SPELLINGS, word) ? SPELLINGS[word] : undefined);

/**
 * The words of what was heard or typed: lower case, hyphens apart, punctuation gone, spellings settled, figures as they are said,
 * fillers dropped. A sign before a figure is kept as its word.
 */
export function wordsOf(text: string): readonly string[] {
  const found: string[] = [];
  const raw = text
    .toLowerCase()
    .replace(/[’]/g, "'")
    .replace(/(^|\s)[-−–](?=[\d.])/g, '$1minus ')
    .replace(/(^|\s)\+(?=[\d.])/g, '$1plus ')
    .split(/[^a-z0-9'.&/]+/);
  for (const [index, each] of raw.entries()) {
    const word = each.replace(/^'+|['.]+$/g, '').replace(/^\.+(?!\d)/, '');
    if (word === '' || Object.hasOwn(FILLERS, word)) continue;
    found.push(...(spelled(word) ?? figureWords(word, raw[index - 1]) ?? [word]));
  }
  return found;
}

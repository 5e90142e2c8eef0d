/**
 * How words sound, in the phones of the packaged English model (ARPAbet without stress). A dictionary is text, one pronunciation
 * a line, `word PH PH PH`; a second pronunciation of a word stands as `word(2)`. Words are lower case.
 */
export type Pronunciations = ReadonlyMap<string, readonly string[]>;

/** The phones of speech that the model knows; silence and noise are its fillers. */
export const PHONES = [
  ...['AA', 'AE', 'AH', 'AO', 'AW', 'AY', 'B', 'CH', 'D', 'DH', 'EH', 'ER', 'EY', 'F', 'G', 'HH', 'IH', 'IY', 'JH', 'K'],
  ...['L', 'M', 'N', 'NG', 'OW', 'OY', 'P', 'R', 'S', 'SH', 'T', 'TH', 'UH', 'UW', 'V', 'W', 'Y', 'Z', 'ZH'],
] as const;

/** The name under which a single phone stands in the dictionary, for the loop of phones; no word of a phrase has this form. */
export const phoneWord = (phone: string): string => `@${phone.toLowerCase()}`;

/** Reads dictionary text; `#` starts a comment, empty lines are passed over, the order of pronunciations is kept. */
export function readPronunciations(text: string): Pronunciations {
  const read = new Map<string, string[]>();
  for (const line of text.split('\n')) {
    const [head, ...phones] = line.replace(/#.*$/u, '').trim().split(/\s+/u);
    if (head === undefined || head === '' || phones.length === 0) continue;
    const word = head.replace(/\(\d+\)$/u, '');
    const known = read.get(word);
    if (known === undefined) read.set(word, [phones.join(' ')]);
    else known.push(phones.join(' '));
  }
  return read;
}

export type CutDictionary = { readonly text: string; readonly missing: readonly string[] };

/**
 * The part of a dictionary that these words need, with the single phones of the loop added. A word that `own` holds sounds as
 * it says there and in no other way. `missing` lists words that neither knows: a grammar with such a word cannot be compiled.
 */
export function cutDictionary(packaged: Pronunciations, own: Pronunciations, words: readonly string[]): CutDictionary {
  const lines: string[] = [];
  const missing: string[] = [];
  for (const word of [...new Set(words)].sort()) {
    const sounds = own.get(word) ?? packaged.get(word);
    if (sounds === undefined) missing.push(word);
    else sounds.forEach((phones, index) => lines.push(`${word}${index === 0 ? '' : `(${index + 1})`} ${phones}`));
  }
  for (const phone of PHONES) lines.push(`${phoneWord(phone)} ${phone}`);
  return { text: `${lines.join('\n')}\n`, missing };
}

/** A sentence as the voice meets it: its words, and whether it ends as a question. */
export type SpokenSentence = { readonly words: readonly string[]; readonly asks: boolean };

/**
 * The words of a text as clip keys have them: lower case, hyphens and dashes apart, no punctuation but an apostrophe inside a
 * word. Figures are left as they stand; they have no clips, for the phrasebook spells numbers.
 */
export function clipWords(text: string): readonly string[] {
  return text
    .toLowerCase()
    .replace(/[’]/g, "'")
    .split(/[^a-z0-9'./]+/)
    .map((word) => word.replace(/^['./]+|['./]+$/g, ''))
    .filter((word) => word !== '');
}

/** A line cut at its full stops, question marks, semicolons and colons; decimal points stay inside their figures. */
export function sentencesOf(text: string): readonly SpokenSentence[] {
  return text
    .split(/(?<=[.?!;:])\s+/)
    .map((part) => ({ words: clipWords(part), asks: part.trimEnd().endsWith('?') }))
    .filter((sentence) => sentence.words.length > 0);
}

/** The key of a clip: its words, one space between. */
export const clipKey = (words: readonly string[]): string => words.join(' ');

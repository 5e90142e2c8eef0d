/** The words that stand for figures, each with what it says. The speaker and the reader share them. */
export const DIGITS = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'] as const;
export const TEENS = [
  'ten',
  'eleven',
  'twelve',
  'thirteen',
  'fourteen',
  'fifteen',
  'sixteen',
  'seventeen',
  'eighteen',
  'nineteen',
] as const;
export const TENS = ['twenty', 'thirty', 'forty', 'fifty', 'sixty', 'seventy', 'eighty', 'ninety'] as const;
/** The first of them is how it is said back. */
export const NOUGHTS = ['oh', 'zero', 'nought'] as const;

const values = new Map<string, number>();
DIGITS.forEach((word, index) => values.set(word, index + 1));
TEENS.forEach((word, index) => values.set(word, index + 10));
TENS.forEach((word, index) => values.set(word, (index + 2) * 10));
NOUGHTS.forEach((word) => values.set(word, 0));

/** What a numeral word stands for; undefined for any other word. */
export const numeralValue = (word: string): number | undefined => values.get(word);

/** The English of the card of phrases; apart from `words.ts` because it is fetched with it. */
export const phrasesWords = {
  title: 'What can I say',
  print: 'Print for the wall',
  back: 'Back to the machine',
  keyNames: {
    PageDown: 'Page Down',
    PageUp: 'Page Up',
    ' ': 'Space',
    Escape: 'Escape',
    Backspace: 'Backspace',
  } as Readonly<Record<string, string>>,
} as const;

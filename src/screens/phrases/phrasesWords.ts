/** The English of the card of phrases; apart from `words.ts` because it is fetched with it. */
export const phrasesWords = {
  title: 'What can I say',
  print: 'Print for the wall',
  back: 'Back to the machine',
  key: (key: string) => `key ${key}`,
  keyNames: {
    PageDown: 'Page Down',
    PageUp: 'Page Up',
    ' ': 'Space, held',
    Escape: 'Escape',
    Backspace: 'Backspace',
    Enter: 'Enter, or the first digit',
  } as Readonly<Record<string, string>>,
} as const;

/**
 * An answer ready for the voice: runs of words that each have a clip, lines that may need the device's own voice, pauses.
 * `words` are lower case, one clip each or a longer clip where the voice has one of the whole run.
 */
export type Spoken =
  | { readonly say: 'words'; readonly words: readonly string[] }
  | { readonly say: 'line'; readonly text: string }
  | { readonly say: 'pause'; readonly after: 'sentence' | 'question' };

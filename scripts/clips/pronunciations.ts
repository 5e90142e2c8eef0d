/**
 * Words that flite says wrongly for a shop, in its own notation: word, part of speech, phones with stress.
 * "thou" is a thousandth here, with the soft th; flite knows only the old pronoun.
 */
export const ADDED_PRONUNCIATIONS: readonly string[] = ['thou nil : th aw1', 'thou n : th aw1', 'thous n : th aw1 z'];

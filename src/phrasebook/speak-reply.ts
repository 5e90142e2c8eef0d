import { PHRASES, type Piece, type Reply } from '../job/index.ts';
import type { DisplayUnit } from '../measure/index.ts';
import { amountWords, bareAmountWords, countWords, hyphened, sizeWords, temperatureWords } from './speak-number.ts';
import type { Spoken } from './spoken.ts';

type Rendered =
  | { readonly as: 'words'; readonly words: readonly string[] }
  | { readonly as: 'text'; readonly text: string }
  | { readonly as: 'comma' | 'stop' | 'asks' };

function rendered(piece: Piece, unit: DisplayUnit): Rendered {
  switch (piece.say) {
    case 'phrase':
      return { as: 'words', words: PHRASES[piece.phrase].split(' ') };
    case 'size':
      return { as: 'words', words: sizeWords(piece.length, unit) };
    case 'amount':
      return { as: 'words', words: amountWords(piece.length, unit) };
    case 'bare-amount':
      return { as: 'words', words: bareAmountWords(piece.length, unit) };
    case 'count':
      return { as: 'words', words: countWords(piece.count) };
    case 'temperature':
      return { as: 'words', words: temperatureWords(piece.temperature, unit) };
    case 'line':
      return { as: 'text', text: piece.text };
    case 'comma':
    case 'stop':
    case 'asks':
      return { as: piece.say };
  }
}

/** A reply as the voice takes it: words joined into one run up to each pause, lines of the plan as they stand. */
export function speakReply(reply: Reply): readonly Spoken[] {
  const spoken: Spoken[] = [];
  let run: string[] = [];
  const flush = (): void => {
    if (run.length > 0) spoken.push({ say: 'words', words: run });
    run = [];
  };
  for (const piece of reply.pieces) {
    const said = rendered(piece, reply.unit);
    if (said.as === 'words') run.push(...said.words.map((word) => word.toLowerCase().replace(/[^a-z']+$/, '')));
    else if (said.as !== 'comma') {
      flush();
      if (said.as === 'text') spoken.push({ say: 'line', text: said.text });
      else spoken.push({ say: 'pause', after: said.as === 'asks' ? 'question' : 'sentence' });
    }
  }
  flush();
  return spoken;
}

/** A reply as it is shown: "Six twenty-seven. Two to go. Take one thou on the dial." */
export function textOfReply(reply: Reply): string {
  const sentences: string[] = [];
  let parts: string[] = [];
  const close = (mark: string): void => {
    const text = parts.join(' ').replace(/\s+([;,.])/g, '$1');
    parts = [];
    if (text === '') return;
    sentences.push(`${text.charAt(0).toUpperCase()}${text.slice(1)}${/[.?!]$/.test(text) ? '' : mark}`);
  };
  for (const piece of reply.pieces) {
    const said = rendered(piece, reply.unit);
    if (said.as === 'words') parts.push(hyphened(said.words));
    else if (said.as === 'text') parts.push(said.text);
    else if (said.as === 'comma') parts.push(',');
    else close(said.as === 'asks' ? '?' : '.');
  }
  close('.');
  return sentences.join(' ');
}

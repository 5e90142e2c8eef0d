import { formatAmount, toCelsius, toFahrenheit } from '../measure/index.ts';
import { PHRASES, type Piece, type Reply } from '../job/index.ts';
import { bareSize } from './show.ts';

function written(piece: Piece, reply: Reply): string {
  switch (piece.say) {
    case 'phrase':
      return PHRASES[piece.phrase];
    case 'size':
      return bareSize(piece.length, reply.unit);
    case 'amount':
    case 'bare-amount':
      return formatAmount(piece.length, reply.unit);
    case 'count':
      return String(piece.count);
    case 'temperature':
      return reply.unit === 'inch' ? toFahrenheit(piece.temperature).toFixed(0) : toCelsius(piece.temperature).toFixed(0);
    case 'line':
      return piece.text;
    case 'comma':
      return ',';
    case 'stop':
      return '.';
    case 'asks':
      return '?';
  }
}

/** An answer for the eye: the same words as are spoken, numbers in figures, each sentence begun with a capital. */
export function replyText(reply: Reply): string {
  let text = '';
  for (const piece of reply.pieces) {
    const ends = piece.say === 'stop' || piece.say === 'asks';
    const word = written(piece, reply);
    // A line of the plan may bring its own full stop.
    if (ends && /[.?!]$/.test(text)) continue;
    const begins = text === '' || /[.?]$/.test(text);
    text += ends || piece.say === 'comma' ? word : `${text === '' ? '' : ' '}${begins ? word.charAt(0).toUpperCase() + word.slice(1) : word}`;
  }
  return text;
}

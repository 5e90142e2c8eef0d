import type { Reply } from '../job/index.ts';
import type { VoiceSettings } from '../voice/index.ts';
import type { Turn } from './conversation.ts';

/** The size read back and what is left: what to do next then stands on the screen alone. */
const SENTENCES = 2;

/**
 * The answer as it is to be spoken: whole, or of a reading that was stored its first two sentences where the person set it so.
 * Questions, refusals, cautions and whatever else was asked for are always whole.
 */
export function asSpoken({ reply, outcome, events }: Pick<Turn, 'reply' | 'outcome' | 'events'>, settings: VoiceSettings): Reply {
  const ofReading = outcome === 'done' && (events.includes('ReadingLogged') || events.includes('MateMeasured'));
  if (settings.answers !== 'short' || !ofReading) return reply;
  const ends = reply.pieces.flatMap(({ say }, at) => (say === 'stop' ? [at + 1] : []));
  const end = ends[SENTENCES - 1];
  return end === undefined || reply.pieces.some(({ say }) => say === 'asks')
    ? reply
    : { ...reply, pieces: reply.pieces.slice(0, end) };
}

import type { Context } from '../job/index.ts';
import type { Command } from './command.ts';

/**
 * How likely a command is at this moment, relative to one that is as likely as any, 1. Common practice, no source: people
 * step, read and ask what is left far more often than they do anything else.
 */
export function likelihood(command: Command, context: Context): number {
  switch (command.intent) {
    case 'yes':
    case 'no':
      return context.asked ? 8 : 0.5;
    case 'cancel':
      return context.asked ? 2 : 0.5;
    case 'reading':
      return context.awaited === null ? 0.5 : context.asked ? 4 : 6;
    case 'next':
    case 'ask-target':
    case 'ask-left':
    case 'scratch':
      return 3;
    case 'repeat':
    case 'correct':
    case 'ask-dial':
    case 'took':
    case 'dial':
      return 2;
    case 'jaw':
    case 'indicator':
      return context.awaited === 'indicator' ? 6 : 0.5;
    case 'spot':
      return context.awaited === 'indicator' ? 3 : 0.3;
    case 'set-up-count':
    case 'set-up-length':
    case 'next-hole':
    case 'ask-set-up':
    case 'ask-why':
    case 'ask-packing':
    case 'ask-taper':
      return 0.5;
    case 'edge':
      return context.awaited === null ? 1 : 0.5;
    case 'back':
    case 'skip':
    case 'go-to':
    case 'where-am-i':
    case 'whats-next':
    case 'ask-passes':
    case 'ask-stop':
    case 'ask-speed':
    case 'ask-feed':
    case 'ask-last':
    case 'ask-taken':
    case 'ask-bore':
    case 'ask-fit':
    case 'ask-time':
    case 'ask-caution':
    case 'read-log':
    case 'temperature':
    case 'touched-off':
    case 'dial-zeroed':
    case 'feel':
    case 'working':
    case 'filed':
    case 'wake':
    case 'stop-listening':
    case 'louder':
    case 'quieter':
    case 'slower':
    case 'hush':
    case 'what-can-i-say':
    case 'memo':
      return 1;
  }
}

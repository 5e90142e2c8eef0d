import { describeTrouble, type EarEvent, type HearingTimes } from '../ear/index.ts';
import type { AssistantState } from './assistantState.ts';
import type { Conversation, Turn } from './conversation.ts';
import type { PageEar } from './ports.ts';

type Listening = AssistantState['listening'];

/** What the ear's events touch. */
type EarListenerDeps = {
  readonly listening: () => Listening;
  readonly show: (change: Partial<Listening>) => void;
  readonly pleaseRepeat: () => void;
  readonly turn: (take: (talk: Conversation) => Promise<Turn>, heardAt: HearingTimes | null) => void;
  readonly broken: (message: string) => void;
};

/** An ear that shows how it is doing, and whose accepted words become turns of the conversation: once for each ear. */
export function listenedTo(ear: PageEar, deps: EarListenerDeps): PageEar {
  ear.onEvent(earListener(ear, deps));
  return ear;
}

function earListener(ear: PageEar, deps: EarListenerDeps): (event: EarEvent) => void {
  return (event) => {
    switch (event.type) {
      case 'level':
        // Said once, in a tone: words would be as hard to hear as the person is.
        if (event.tooLoud && !deps.listening().tooLoud) deps.pleaseRepeat();
        deps.show({ levelDb: event.rmsDb, floorDb: event.floorDb, tooLoud: event.tooLoud });
        return;
      case 'trouble':
        deps.show({ trouble: event.trouble === null ? null : describeTrouble(event.trouble, ear.microphone) });
        return;
      case 'speech-start':
        deps.show({ state: 'hearing' });
        return;
      case 'speech-end':
        deps.show({ state: 'thinking' });
        return;
      case 'window':
        deps.show({ called: event.open });
        return;
      case 'hypothesis': {
        const { text, accepted, confidence, reason } = event.hypothesis;
        deps.show({ state: 'waiting' });
        if (accepted) deps.turn((talk) => talk.hear(text, confidence), event.times);
        // Held down, the person did speak, so they are told; otherwise it was the shop, and the page keeps quiet.
        else if (deps.listening().mode === 'hold' && reason !== 'studied') deps.turn((talk) => talk.notHeard(text), null);
        return;
      }
      case 'fault':
        deps.broken(event.message);
        return;
    }
  };
}

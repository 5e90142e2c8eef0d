import type { AssistantState } from '../../app/index.ts';
import { useAssistant } from '../store.tsx';
import { words } from '../words.ts';
import { litSegments } from './level.ts';

const SEGMENTS = 12;

/** What the words of the listening state are made of. */
type Told = Pick<AssistantState['listening'], 'mode' | 'state' | 'callName' | 'called' | 'tooLoud'>;

/** The listening state in plain words. */
export function listeningWords({ mode, state, callName, called, tooLoud }: Told): string {
  if (tooLoud) return words.tooLoud;
  if (state !== 'waiting') return words.listening[state];
  if (mode !== 'call') return words.listening.waiting[mode];
  return called ? words.listening.waiting.open : words.callIt(callName);
}

/** The listening state without the level, which changes ten times a second and would draw anew whatever takes it along. */
export function useTold(): Told {
  const mode = useAssistant(({ listening }) => listening.mode);
  const state = useAssistant(({ listening }) => listening.state);
  const callName = useAssistant(({ listening }) => listening.callName);
  const tooLoud = useAssistant(({ listening }) => listening.tooLoud);
  const called = useAssistant(({ listening }) => listening.called);
  return { mode, state, callName, called, tooLoud };
}

/** The level against the noise of the machine; drawn anew only when a segment changes. */
function Meter() {
  const lit = useAssistant(({ listening: { levelDb } }) => (levelDb === null ? null : litSegments(levelDb, SEGMENTS)));
  const floor = useAssistant(({ listening: { floorDb } }) => (floorDb === null ? null : litSegments(floorDb, SEGMENTS)));
  if (lit === null) return null;
  return (
    <span className="meter" role="meter" aria-label={words.level} aria-valuemin={0} aria-valuemax={SEGMENTS} aria-valuenow={lit}>
      {Array.from({ length: SEGMENTS }, (_, index) => (
        <i key={index} className={`${index < lit ? 'lit' : ''} ${floor === index ? 'floor' : ''}`} />
      ))}
    </span>
  );
}

/** The listening state in words, and the level. */
export function Listening() {
  const told = useTold();
  return (
    <div className={`listening is-${told.state}`}>
      <span className={told.tooLoud ? 'listening-words is-loud' : 'listening-words'} role="status">
        {listeningWords(told)}
      </span>
      <Meter />
    </div>
  );
}

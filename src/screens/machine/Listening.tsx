import type { AssistantState } from '../../app/index.ts';
import { useAssistant } from '../store.tsx';
import { words } from '../words.ts';
import { litSegments } from './level.ts';

const SEGMENTS = 12;

/** The listening state in plain words. */
export function listeningWords(listening: AssistantState['listening']): string {
  const { mode, state, callName, tooLoud } = listening;
  if (tooLoud) return words.tooLoud;
  if (state !== 'waiting') return words.listening[state];
  return mode === 'call' ? words.callIt(callName) : words.listening.waiting[mode];
}

/** The listening state in words, and the level against the noise of the machine. */
export function Listening() {
  const listening = useAssistant((assistant) => assistant.listening);
  const { levelDb, floorDb, tooLoud, state } = listening;
  const lit = levelDb === null ? 0 : litSegments(levelDb, SEGMENTS);
  const floor = floorDb === null ? null : litSegments(floorDb, SEGMENTS);
  return (
    <div className={`listening is-${state}`}>
      <span className={tooLoud ? 'listening-words is-loud' : 'listening-words'} role="status">
        {listeningWords(listening)}
      </span>
      {levelDb !== null && (
        <span
          className="meter"
          role="meter"
          aria-label={words.level}
          aria-valuemin={-80}
          aria-valuemax={0}
          aria-valuenow={Math.round(levelDb)}
        >
          {Array.from({ length: SEGMENTS }, (_, index) => (
            <i key={index} className={`${index < lit ? 'lit' : ''} ${floor === index ? 'floor' : ''}`} />
          ))}
        </span>
      )}
    </div>
  );
}

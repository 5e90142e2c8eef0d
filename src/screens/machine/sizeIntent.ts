import type { StoreApi } from 'zustand/vanilla';
import { contextOf, type Intent } from '../../job/index.ts';
import { interpretTyped } from '../../phrasebook/index.ts';
import type { AssistantState } from '../../app/index.ts';
import type { Entered } from './pad.ts';

/** A typed size as an intent with what the pad adds to it; null where it is better read as it stands, for its answer. */
export function sizeIntent(store: StoreApi<AssistantState>, size: Extract<Entered, { as: 'size' }>): Intent | null {
  const { job } = store.getState();
  if (job === null || (size.for === 'reading' && size.place === null && size.instrument === null)) return null;
  const read = interpretTyped(size.text, contextOf(job.state, job.talk, Date.now()));
  if (!read.ok || read.value.type !== 'reading') return null;
  if (size.for === 'correct') return { type: 'correct', value: read.value.value };
  return { ...read.value, place: size.place, instrument: size.instrument };
}

import { useRef, useState } from 'react';
import type { StoreApi } from 'zustand/vanilla';
import { contextOf, type Glance, type Intent } from '../../job/index.ts';
import type { DisplayUnit } from '../../measure/index.ts';
import { interpretTyped } from '../../phrasebook/index.ts';
import type { AssistantState } from '../../app/index.ts';
import { useAssistant, useAssistantStore, useGlance } from '../store.tsx';
import { turnTheme } from '../theme.ts';
import { deedOf, type Deed, type RowId } from './buttonRows.ts';
import { commandWithKey, waitsForSecond, type KeyDeed } from './keys.ts';
import { entered, erased, openPad, pressed, withUnitLetter, type Entered, type Pad, type PadAsk } from './pad.ts';
import type { Answer } from './QuestionHalves.tsx';
import { useShopKeys } from './useShopKeys.ts';

/** A typed size as an intent with what the pad adds to it; null where it is better read as it stands, for its answer. */
function sizeIntent(store: StoreApi<AssistantState>, size: Extract<Entered, { as: 'size' }>): Intent | null {
  const { job } = store.getState();
  if (job === null || (size.for === 'reading' && size.place === null && size.instrument === null)) return null;
  const read = interpretTyped(size.text, contextOf(job.state, job.talk, Date.now()));
  if (!read.ok || read.value.type !== 'reading') return null;
  if (size.for === 'correct') return { type: 'correct', value: read.value.value };
  return { ...read.value, place: size.place, instrument: size.instrument };
}

export type Machine = {
  readonly glance: Glance | null;
  readonly unit: DisplayUnit;
  readonly row: RowId;
  readonly pad: Pad | null;
  readonly setPad: (pad: Pad | null) => void;
  readonly answer: (choice: Answer) => void;
  readonly enter: () => void;
  readonly press: (deed: Deed) => void;
};

/**
 * What the machine page holds of its own (which row of buttons is up, the open number pad), and what buttons and keys do. Every
 * way in ends in the same few actions of the store.
 */
export function useMachine(): Machine {
  const store = useAssistantStore();
  const glance = useGlance();
  const unit = useAssistant((assistant) => assistant.job?.state.plan.part.unit ?? 'inch');
  const question = useAssistant((assistant) => assistant.job?.talk.question ?? null);
  const [row, setRow] = useState<RowId>('first');
  const [pad, setPad] = useState<Pad | null>(null);
  /** A key that waits for the second one of a command; whatever else is pressed lets it go. */
  const firstKey = useRef<string | null>(null);

  const say = (intent: Intent): void => void store.getState().command(intent);
  const newPad = (ask: PadAsk, key?: string): Pad => openPad(ask, unit, glance?.operation.target?.quantity === 'indicator', key);

  const answer = (choice: Answer): void => {
    if (choice === 'cancel') say({ type: 'cancel' });
    else void store.getState().answer(choice);
  };

  const enter = (): void => {
    const made = pad === null ? null : entered(pad, unit);
    if (made === null) return;
    setPad(null);
    setRow('first');
    const intent = made.as === 'intent' ? made.intent : sizeIntent(store, made);
    if (intent !== null) say(intent);
    else if (made.as === 'size') void store.getState().typed(made.text);
  };

  const press = (deed: Deed): void => {
    setRow(deed.do === 'row' ? deed.row : 'first');
    switch (deed.do) {
      case 'row':
      case 'talk':
        break;
      case 'say':
        say(deed.intent);
        break;
      case 'pad':
        setPad(newPad(deed.ask));
        break;
      case 'page':
        store.getState().goTo(deed.page);
        break;
      case 'listen':
        void store.getState().listen(deed.mode);
        break;
      case 'theme':
        turnTheme();
        break;
    }
  };

  const enterKey = (): void => {
    if (pad !== null) enter();
    else if (question !== null) answer(question.about === 'which-value' && question.other !== null ? 'first' : 'yes');
    else setPad(newPad('reading'));
  };

  const escapeKey = (): void => {
    if (pad !== null) setPad(null);
    else if (question === null && row !== 'first') setRow('first');
    else say({ type: 'cancel' });
  };

  const letterKey = (letter: string): void => {
    if (pad !== null) setPad('/ '.includes(letter) ? pressed(pad, letter) : withUnitLetter(pad, letter, unit));
    else {
      const first = firstKey.current;
      firstKey.current = first === null && waitsForSecond(letter) ? letter : null;
      const command = commandWithKey(letter, first);
      if (command !== null) press(deedOf(command));
    }
  };

  const keyDown = (key: KeyDeed): void => {
    const waited = firstKey.current !== null;
    if (key.do !== 'letter') firstKey.current = null;
    if (waited && key.do === 'escape') return;
    switch (key.do) {
      case 'talk':
        store.getState().hold();
        break;
      case 'next':
      case 'back':
        // A number half typed is finished or cancelled first: a pedal must not carry it into the next step.
        if (pad === null) say({ type: key.do });
        break;
      case 'enter':
        enterKey();
        break;
      case 'escape':
        escapeKey();
        break;
      case 'erase':
        if (pad === null) say({ type: 'scratch' });
        else setPad(erased(pad));
        break;
      case 'type':
        setPad(pad === null ? newPad('reading', key.key) : pressed(pad, key.key));
        break;
      case 'letter':
        letterKey(key.key);
        break;
    }
  };
  useShopKeys({ down: keyDown, talkUp: () => store.getState().release() });

  return { glance, unit, row, pad, setPad, answer, enter, press };
}

import { startTransition, useCallback, useEffect, useRef, useState } from 'react';
import type { Glance, Intent } from '../../job/index.ts';
import type { DisplayUnit } from '../../measure/index.ts';
import { useAssistant, useAssistantStore, useGlance } from '../store.tsx';
import { turnTheme } from '../theme.ts';
import type { KeyDeed } from './keys.ts';
import { loadTable, withTable } from './laterTable.ts';
import { entered, erased, openPad, pressed, withUnitLetter, type Pad, type PadAsk } from './pad.ts';
import type { Answer } from './QuestionHalves.tsx';
import { FIRST_ROW, type Deed, type Row, type RowId } from './row.ts';
import { useShopKeys } from './useShopKeys.ts';

/** The row of buttons that is up. */
export type RowUp = { readonly id: RowId; readonly row: Row };
const AT_FIRST: RowUp = { id: 'first', row: FIRST_ROW };

export type Machine = {
  readonly glance: Glance | null;
  readonly unit: DisplayUnit;
  readonly row: RowUp;
  readonly pad: Pad | null;
  readonly changePad: (change: (pad: Pad) => Pad) => void;
  readonly closePad: () => void;
  readonly answer: (choice: Answer) => void;
  readonly enter: (pad: Pad) => void;
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
  const [row, setRow] = useState(AT_FIRST);
  const [pad, setPad] = useState<Pad | null>(null);
  const changePad = useCallback((change: (pad: Pad) => Pad) => setPad((now) => (now === null ? null : change(now))), []);
  const closePad = useCallback(() => setPad(null), []);
  /** A key that waits for the second one of a command; whatever else is pressed lets it go. */
  const firstKey = useRef<string | null>(null);

  const say = useCallback((intent: Intent): void => void store.getState().command(intent), [store]);
  const newPad = (ask: PadAsk, key?: string): Pad => openPad(ask, unit, glance?.operation.target?.quantity === 'indicator', key);

  const turnTo = (id: RowId): void => {
    if (id === 'first') setRow(AT_FIRST);
    else withTable(({ ROWS }) => setRow({ id, row: ROWS[id] }));
  };

  const answer = (choice: Answer): void => {
    if (choice === 'cancel') say({ type: 'cancel' });
    else void store.getState().answer(choice);
  };

  const enter = useCallback(
    (typed: Pad): void => {
      const made = entered(typed, unit);
      if (made === null) return;
      setPad(null);
      setRow(AT_FIRST);
      if (made.as === 'intent') say(made.intent);
      else
        withTable(({ sizeIntent }) => {
          const intent = sizeIntent(store, made);
          if (intent !== null) say(intent);
          else void store.getState().typed(made.text);
        });
    },
    [say, store, unit],
  );

  const press = (deed: Deed): void => {
    turnTo(deed.do === 'row' ? deed.row : 'first');
    switch (deed.do) {
      case 'row':
      case 'talk':
        break;
      case 'say':
        say(deed.intent);
        break;
      case 'pad':
        // The press is seen first: the pad is the largest thing there is to draw. A digit that opened it meanwhile stays.
        startTransition(() => setPad((now) => now ?? newPad(deed.ask)));
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
    if (pad !== null) enter(pad);
    else if (question !== null) answer(question.about === 'which-value' && question.other !== null ? 'first' : 'yes');
    else setPad(newPad('reading'));
  };

  const escapeKey = (): void => {
    if (pad !== null) setPad(null);
    else if (question === null && row !== AT_FIRST) setRow(AT_FIRST);
    else say({ type: 'cancel' });
  };

  const letterKey = (letter: string): void => {
    if (pad !== null) setPad('/ '.includes(letter) ? pressed(pad, letter) : withUnitLetter(pad, letter, unit));
    else
      withTable(({ commandWithKey, deedOf, waitsForSecond }) => {
        const first = firstKey.current;
        firstKey.current = first === null && waitsForSecond(letter) ? letter : null;
        const command = commandWithKey(letter, first);
        if (command !== null) press(deedOf(command));
      });
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

  // What is not needed to draw the page is there before a hand is.
  useEffect(() => void loadTable(), []);

  return { glance, unit, row, pad, changePad, closePad, answer, enter, press };
}

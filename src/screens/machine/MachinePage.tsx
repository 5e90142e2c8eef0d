import { useState, type ReactNode } from 'react';
import type { Glance } from '../../job/index.ts';
import type { DisplayUnit } from '../../measure/index.ts';
import { Boundary } from '../Boundary.tsx';
import { useAssistant, useAssistantStore, useGlance } from '../store.tsx';
import { turnTheme } from '../theme.ts';
import { useWakeLock } from '../wakeLock.ts';
import { words } from '../words.ts';
import { ButtonRow } from './ButtonRow.tsx';
import type { Deed, RowId } from './buttonRows.ts';
import { CautionInFull, CautionLine } from './Caution.tsx';
import { commandKeys } from './commandKeys.ts';
import { Conversation } from './Conversation.tsx';
import { commandOf, type KeyDeed } from './keys.ts';
import { NoticeBand } from './NoticeBand.tsx';
import { NumberPad } from './NumberPad.tsx';
import { entered, erased, openPad, pressed, withUnitLetter, type Pad } from './pad.ts';
import { QuestionHalves, type Answer } from './QuestionHalves.tsx';
import { Amounts, Target } from './Sizes.tsx';
import { Step, TopBar } from './Step.tsx';
import { Strip } from './Strip.tsx';
import { useShopKeys } from './useShopKeys.ts';

/** The pictures beside the target: the caution while the step is fresh, then the window with its readings, and the part. */
function Pictures({ glance, unit }: { readonly glance: Glance; readonly unit: DisplayUnit }) {
  const { caution } = glance.operation;
  if (caution !== null && glance.readings === 0) return <CautionInFull caution={caution} />;
  return (
    <div className="pictures">
      <Strip glance={glance} unit={unit} />
      {caution !== null && <CautionLine caution={caution} />}
    </div>
  );
}

function AllDone() {
  return (
    <section className="step is-alone">
      <h1>{words.allDone}</h1>
      <p className="facts">{words.allDoneMore}</p>
    </section>
  );
}

const part = (name: string, shown: ReactNode) => <Boundary part={name}>{shown}</Boundary>;

/** One step at a time, for eyes two metres away and hands that are busy. */
export function MachinePage() {
  const store = useAssistantStore();
  const glance = useGlance();
  const unit = useAssistant((assistant) => assistant.job?.state.plan.part.unit ?? 'inch');
  const question = useAssistant((assistant) => assistant.job?.talk.question ?? null);
  const [row, setRow] = useState<RowId>('first');
  const [pad, setPad] = useState<Pad | null>(null);
  useWakeLock();

  const answer = (choice: Answer): void => {
    if (choice === 'cancel') void store.getState().command({ type: 'cancel' });
    else void store.getState().answer(choice);
  };

  const enter = (): void => {
    const made = pad === null ? null : entered(pad, unit);
    if (made === null) return;
    setPad(null);
    setRow('first');
    if (made.as === 'typed') void store.getState().typed(made.text);
    else void store.getState().command(made.intent);
  };

  const deed = (wanted: Deed): void => {
    setRow(wanted.do === 'row' ? wanted.row : 'first');
    switch (wanted.do) {
      case 'row':
      case 'talk':
        return;
      case 'say':
        return void store.getState().command(wanted.intent);
      case 'pad':
        return setPad(openPad(wanted.ask, unit));
      case 'page':
        return store.getState().goTo(wanted.page);
      case 'listen':
        return void store.getState().listen(wanted.mode);
      case 'stop-listening':
        return store.getState().stopListening();
      case 'theme':
        return turnTheme();
    }
  };

  const enterKey = (): void => {
    if (pad !== null) return enter();
    if (question !== null) answer(question.about === 'which-value' ? 'first' : 'yes');
  };

  const escapeKey = (): void => {
    if (pad !== null) setPad(null);
    else if (question !== null) answer('cancel');
    else if (row !== 'first') setRow('first');
    else void store.getState().command({ type: 'cancel' });
  };

  const letterKey = (letter: string): void => {
    if (pad !== null) return setPad('-/ '.includes(letter) ? pressed(pad, letter) : withUnitLetter(pad, letter, unit));
    const intent = commandOf(commandKeys, letter);
    if (intent !== null) void store.getState().command(intent);
  };

  const keyDown = (key: KeyDeed): void => {
    switch (key.do) {
      case 'talk':
        return store.getState().hold();
      case 'next':
      case 'back':
        // A number half typed is finished or cancelled first: a pedal must not carry it into the next step.
        return pad === null ? void store.getState().command({ type: key.do }) : undefined;
      case 'enter':
        return enterKey();
      case 'escape':
        return escapeKey();
      case 'erase':
        return setPad((open) => (open === null ? null : erased(open)));
      case 'type':
        return setPad((open) => (open === null ? openPad('reading', unit, key.key) : pressed(open, key.key)));
      case 'letter':
        return letterKey(key.key);
    }
  };
  useShopKeys({ down: keyDown, talkUp: () => store.getState().release() });

  const p = words.parts;
  const covered = pad !== null || question !== null;
  return (
    <main className="machine">
      <div className="machine-page" inert={covered}>
        {part(p.step, <TopBar glance={glance} />)}
        <div className={glance?.window === null || glance === null ? 'work is-wide' : 'work'}>
          <div className="work-main">
            {part(p.step, glance === null ? <AllDone /> : <Step glance={glance} unit={unit} />)}
            {glance !== null && part(p.target, <Target glance={glance} unit={unit} />)}
          </div>
          {glance !== null && part(p.pictures, <Pictures glance={glance} unit={unit} />)}
        </div>
        {glance !== null && part(p.amounts, <Amounts glance={glance} unit={unit} />)}
        {part(p.notices, <NoticeBand />)}
        {part(p.conversation, <Conversation />)}
        {part(p.buttons, <ButtonRow row={row} glance={glance} onDeed={deed} />)}
      </div>
      {question !== null && pad === null && part(p.question, <QuestionHalves question={question} unit={unit} onAnswer={answer} />)}
      {pad !== null && part(p.pad, <NumberPad pad={pad} unit={unit} glance={glance} onChange={setPad} onEnter={enter} onCancel={() => setPad(null)} />)}
    </main>
  );
}

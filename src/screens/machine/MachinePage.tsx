import { lazy, startTransition, Suspense, useEffect, useLayoutEffect, useMemo, useRef, useState, type ReactNode } from 'react';
import type { Glance, SetUpView } from '../../job/index.ts';
import type { DisplayUnit } from '../../measure/index.ts';
import { Boundary } from '../Boundary.tsx';
import { useAssistant, useIsFirstPage } from '../store.tsx';
import { useWakeLock } from '../wakeLock.ts';
import { words } from '../words.ts';
import { ButtonRow } from './ButtonRow.tsx';
import { CautionInFull, CautionLine } from './Caution.tsx';
import { Conversation } from './Conversation.tsx';
import { NoticeCard } from './NoticeCard.tsx';
import { Amounts, Target } from './Sizes.tsx';
import { Step, TopBar } from './Step.tsx';
import { useMachine } from './useMachine.ts';

/* Asked for at once, and drawn when they have come: the target and the buttons are there before. */
const pictures = import('./pictures.ts');
pictures.catch(() => undefined);
const Profile = lazy(async () => ({ default: (await pictures).Profile }));
const SetUpPicture = lazy(async () => ({ default: (await pictures).SetUpPicture }));
const Strip = lazy(async () => ({ default: (await pictures).Strip }));

/* What lies over the page comes next, before a hand can ask for it. */
const over = import('./over.ts');
over.catch(() => undefined);
const NumberPad = lazy(async () => ({ default: (await over).NumberPad }));
const QuestionHalves = lazy(async () => ({ default: (await over).QuestionHalves }));

/** Whether anything was read or counted of a set-up: then its caution has been read too. */
function begun(setUp: SetUpView): boolean {
  switch (setUp.of) {
    case 'jaws':
    case 'high-spot':
      return setUp.readings.length > 0;
    case 'edges':
      return setUp.end !== null;
    case 'tap':
      return setUp.quartersDone > 0;
  }
}

/** Of a set-up where it stands, else the part while nothing has been measured, else the window with its readings. */
function Picture({ glance, unit }: { readonly glance: Glance | null; readonly unit: DisplayUnit }) {
  if (glance !== null && glance.setUp !== null) return <SetUpPicture view={glance.setUp} unit={unit} />;
  if (glance === null || glance.readings === 0 || glance.window === null) return <Profile glance={glance} />;
  return <Strip glance={glance} unit={unit} />;
}

/** Beside the target, one thing at a time: what does not work, else the caution while the step is fresh, else a picture. */
function Beside({ glance, unit }: { readonly glance: Glance | null; readonly unit: DisplayUnit }) {
  const troubled = useAssistant((assistant) => assistant.notices.length > 0);
  const caution = glance?.operation.caution ?? null;
  const fresh = glance === null || (glance.readings === 0 && !(glance.setUp !== null && begun(glance.setUp)));
  if (caution !== null && fresh && !troubled) return <CautionInFull caution={caution} />;
  return (
    <div className="beside">
      {troubled ? (
        <NoticeCard />
      ) : (
        <Suspense>
          <Picture glance={glance} unit={unit} />
        </Suspense>
      )}
      {caution !== null && <CautionLine caution={caution} />}
    </div>
  );
}

function AllDone() {
  return (
    <section className="step is-alone">
      <h1 tabIndex={-1}>{words.allDone}</h1>
      <p className="facts">{words.allDoneMore}</p>
    </section>
  );
}

const part = (name: string, shown: ReactNode) => <Boundary part={name}>{shown}</Boundary>;

/** How long the page has been there before it lays the number pad out, unseen: the press that wants it then only shows it. */
const PAD_AFTER_MS = 5_000;

/** True once the number pad may be laid out ahead of its first press. */
function usePadLaid(): boolean {
  const [laid, setLaid] = useState(false);
  useEffect(() => {
    const later = setTimeout(() => startTransition(() => setLaid(true)), PAD_AFTER_MS);
    return () => clearTimeout(later);
  }, []);
  return laid;
}

/**
 * Where the keyboard stands: on the step when the page comes, so that it is read out and Tab goes on from there; where it was
 * before, once what lay over the page has gone.
 */
function useFocus(covered: boolean) {
  const page = useRef<HTMLElement>(null);
  const before = useRef<Element | null>(null);
  const first = useIsFirstPage();
  useLayoutEffect(() => {
    if (!first) page.current?.querySelector('h1')?.focus({ preventScroll: true });
  }, [first]);
  useLayoutEffect(() => {
    if (covered) before.current = document.activeElement;
    else if (before.current instanceof HTMLElement) before.current.focus({ preventScroll: true });
  }, [covered]);
  return page;
}

/** One step at a time, for eyes two metres away and hands that are busy. */
export function MachinePage() {
  const { glance, unit, row, pad, changePad, closePad, answer, enter, press } = useMachine();
  const question = useAssistant((assistant) => assistant.job?.talk.question ?? null);
  const padLaid = usePadLaid();
  const page = useFocus(pad !== null || question !== null);
  useWakeLock();
  const p = words.parts;
  // The same as long as the job is: a press or a digit draws the buttons or the pad, and none of this.
  const seen = useMemo(
    () => (
      <>
        {part(p.step, <TopBar glance={glance} />)}
        {part(p.step, glance === null ? <AllDone /> : <Step glance={glance} unit={unit} />)}
        <div className="work">
          {glance !== null && part(p.target, <Target glance={glance} unit={unit} />)}
          {part(p.pictures, <Beside glance={glance} unit={unit} />)}
        </div>
        {glance !== null && part(p.amounts, <Amounts glance={glance} unit={unit} />)}
        {part(p.conversation, <Conversation />)}
      </>
    ),
    [glance, unit, p],
  );
  return (
    <main className="machine" ref={page}>
      <div className="machine-page">
        {seen}
        {part(p.buttons, <ButtonRow row={row} glance={glance} onDeed={press} />)}
      </div>
      {pad === null && question !== null && (
        <Boundary part={p.question}>
          <Suspense>
            <QuestionHalves question={question} unit={unit} glance={glance} onAnswer={answer} />
          </Suspense>
        </Boundary>
      )}
      {(pad !== null || padLaid) && (
        <Boundary part={p.pad}>
          <Suspense>
            <NumberPad
              pad={pad}
              unit={unit}
              glance={pad === null ? null : glance}
              onChange={changePad}
              onEnter={enter}
              onCancel={closePad}
            />
          </Suspense>
        </Boundary>
      )}
    </main>
  );
}

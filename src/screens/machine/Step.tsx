import type { DisplayUnit } from '../../measure/index.ts';
import type { Glance } from '../../job/index.ts';
import { bareSize, unitSign } from '../show.ts';
import { useAssistant } from '../store.tsx';
import { words } from '../words.ts';
import { Listening } from './Listening.tsx';

/** Where we are in the route, and whether the page is listening. */
export function TopBar({ glance }: { readonly glance: Glance | null }) {
  const unstored = useAssistant((assistant) => assistant.unstored);
  const plan = useAssistant((assistant) => assistant.job?.state.plan ?? null);
  return (
    <header className="top-bar">
      <p className="where">
        {glance === null ? (
          <b>{plan?.title ?? words.name}</b>
        ) : (
          <>
            <b>{words.step(glance.step, glance.steps)}</b> <span className="setup">{glance.setup.title}</span>
          </>
        )}
      </p>
      {unstored > 0 && (
        <p className="unstored" role="alert">
          {words.unstored(unstored)}
        </p>
      )}
      <Listening />
    </header>
  );
}

/** The facts of a step that are looked up once: where to stop, how fast, with what; sentences have a line of their own. */
function Facts({ glance, unit }: { readonly glance: Glance; readonly unit: DisplayUnit }) {
  const route = useAssistant((assistant) => assistant.job?.state.plan.route ?? null);
  const firstOfSetup = route?.operations.find((operation) => operation.setup === glance.setup.id)?.id === glance.operation.id;
  const { stop, cut, note } = glance.operation;
  // The tool is in its holder and the note has been read by the time a reading comes.
  const fresh = glance.readings === 0;
  const size = (length: Parameters<typeof bareSize>[0]): string => `${bareSize(length, unit)} ${unitSign(unit)}`;
  return (
    <ul className="facts">
      {firstOfSetup && fresh && <li className="fact-line">{glance.setup.holding}</li>}
      {stop !== null && <li className="fact-stop">{words.stopAt(size(stop.distance), stop.from)}</li>}
      {cut !== null && <li>{words.rpm(cut.speedRpm)}</li>}
      {cut !== null && cut.feedPerTurn !== null && <li>{words.feed(size(cut.feedPerTurn))}</li>}
      {fresh && cut !== null && <li>{cut.tool}</li>}
      {fresh && note !== null && <li className="fact-line">{note}</li>}
    </ul>
  );
}

/** The operation in plain words, and its facts. */
export function Step({ glance, unit }: { readonly glance: Glance; readonly unit: DisplayUnit }) {
  return (
    <section className={`step ${glance.window === null ? 'is-alone' : ''}`}>
      <h1 tabIndex={-1}>{glance.operation.title}</h1>
      <Facts glance={glance} unit={unit} />
    </section>
  );
}

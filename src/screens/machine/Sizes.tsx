import { magnitude, type DisplayUnit, type Length } from '../../measure/index.ts';
import { mateHere, measuredMate, type Glance } from '../../job/index.ts';
import { amountParts, bareSize, bothLimits, fractionToo, showClock, unitSign } from '../show.ts';
import { useAssistant } from '../store.tsx';
import { words } from '../words.ts';

/** The size wanted, or of a mate the size it has: the largest thing on the page. */
export function Target({ glance, unit }: { readonly glance: Glance; readonly unit: DisplayUnit }) {
  const { window, operation, last } = glance;
  if (window === null || operation.target === null) return null;
  const { quantity } = operation.target;
  const ofMate = quantity === 'bore' || quantity === 'width';
  const shown = ofMate && last !== null ? last.value : window.aim;
  const fraction = fractionToo(shown, unit);
  const number = bareSize(shown, unit);
  const range = words.range(...bothLimits(window.low, window.high, unit));
  return (
    <section className="target">
      <div className="target-head">
        <h2>{ofMate && last !== null ? words.asMeasured[quantity] : words.target[quantity]}</h2>
        <p>
          <b>{ofMate ? words.expected(range) : range}</b>
          {fraction !== null && ` · ${fraction}`}
        </p>
      </div>
      <div className="target-room">
        <p className={number.length > 5 ? 'target-size is-long' : 'target-size'}>
          <b>{number}</b>
          <span> {unitSign(unit)}</span>
        </p>
      </div>
    </section>
  );
}

type FigureProps = { readonly number: string; readonly unit: string; readonly label: string; readonly kind?: string };

function Figure({ number, unit, label, kind = '' }: FigureProps) {
  return (
    <div className={`figure ${kind}`}>
      <dt>{label}</dt>
      <dd>
        <b>{number}</b>
        {unit !== '' && <span> {unit}</span>}
      </dd>
    </div>
  );
}

/** What is left on the part, or that nothing is. */
function LeftOnPart({ glance, unit }: { readonly glance: Glance; readonly unit: DisplayUnit }) {
  const { left, operation } = glance;
  const quantity = operation.target?.quantity;
  if (left === null || quantity === undefined) return null;
  const amount = (length: Length): { number: string; unit: string } => amountParts(magnitude(length), unit);
  const label = left.onPart < 0 ? words.past : left.measured ? words.left[quantity] : words.leftFromPlan;
  switch (left.standing) {
    case 'in-window':
      return (
        <Figure
          kind="standing is-in"
          number={words.standing['in-window']}
          unit=""
          label={`${amount(left.onPart).number} ${amount(left.onPart).unit} ${label}`}
        />
      );
    case 'past':
      return (
        <Figure
          kind="standing is-past"
          number={words.standing.past}
          unit=""
          label={`${amount(left.onPart).number} ${amount(left.onPart).unit} ${label}`}
        />
      );
    case 'more-to-take':
    case 'beside':
      return <Figure kind="is-left" {...amount(left.onPart)} label={label} />;
  }
}

/** What to do with the hand-wheel next. */
function OnTheDial({ glance, unit }: { readonly glance: Glance; readonly unit: DisplayUnit }) {
  const { left, cut } = glance;
  if (left === null || left.onPart <= 0 || left.standing === 'in-window') return null;
  const all = <Figure {...amountParts(left.onDial, unit)} label={words.onTheDial} />;
  if (cut === null) return all;
  if (cut.tooThin !== null) {
    const along = cut.tooThin === 'compound';
    return (
      <>
        {all}
        <Figure
          kind="is-word"
          number={along ? words.compound : words.fileIt}
          unit=""
          label={along ? words.underADivision : words.tooThin}
        />
      </>
    );
  }
  return (
    <>
      {all}
      <Figure {...amountParts(cut.onDial, unit)} label={words.nextCut(cut.passes)} />
    </>
  );
}

/** Of a mate that was measured: its smallest and largest size, between which it really lies. */
function MateMeasured({ glance, unit }: { readonly glance: Glance; readonly unit: DisplayUnit }) {
  const state = useAssistant((assistant) => assistant.job?.state ?? null);
  const mate = state === null ? null : mateHere(state, glance.operation);
  const measured = state === null || mate === null ? null : measuredMate(state, mate.id);
  if (measured === null) return null;
  return (
    <>
      <Figure number={bareSize(measured.least, unit)} unit={unitSign(unit)} label={words.smallest(measured.count)} />
      <Figure number={bareSize(measured.most, unit)} unit={unitSign(unit)} label={words.largest} />
    </>
  );
}

/** What is left on the diameter and on the dial, and the last reading. */
export function Amounts({ glance, unit }: { readonly glance: Glance; readonly unit: DisplayUnit }) {
  const { last, readings, operation } = glance;
  // A set-up shows what was read in its picture.
  if (last === null && (operation.target === null || glance.setUp !== null)) return null;
  const ofMate = operation.target?.quantity === 'bore' || operation.target?.quantity === 'width';
  const instrument = last === null || last.instrument === null ? '' : `${words.instruments[last.instrument]}, `;
  return (
    <dl className="amounts">
      <LeftOnPart glance={glance} unit={unit} />
      <OnTheDial glance={glance} unit={unit} />
      {ofMate && <MateMeasured glance={glance} unit={unit} />}
      {ofMate && last !== null ? null : last === null ? (
        <Figure kind="is-last" number="–" unit="" label={words.noReading} />
      ) : (
        <Figure
          kind="is-last"
          number={bareSize(last.value, unit)}
          unit={unitSign(unit)}
          label={`${words.lastOf(readings)}, ${instrument}${showClock(last.at)}`}
        />
      )}
    </dl>
  );
}

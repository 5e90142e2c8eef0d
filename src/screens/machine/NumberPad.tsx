import { memo, useEffect, useRef } from 'react';
import type { DisplayUnit } from '../../measure/index.ts';
import type { Glance } from '../../job/index.ts';
import { bareSize, unitSign } from '../show.ts';
import { words } from '../words.ts';
import { BigButton } from './BigButton.tsx';
import { Reminder } from './Reminder.tsx';
import {
  entered,
  erased,
  likelyKeys,
  openPad,
  pressed,
  takesFraction,
  takesPlace,
  turnedInstrument,
  turnedJaw,
  turnedPlace,
  turnedUnit,
  unitsOf,
  type Pad,
} from './pad.ts';

type Props = {
  /** What is typed; null where the pad is put away, which keeps its keys laid out for the next press. */
  readonly pad: Pad | null;
  readonly unit: DisplayUnit;
  readonly glance: Glance | null;
  readonly onChange: ChangePad;
  readonly onEnter: (pad: Pad) => void;
  readonly onCancel: () => void;
};

/** Changes the pad that is open; the same function as long as the page is, so that a key is drawn anew only where it changes. */
export type ChangePad = (change: (pad: Pad) => Pad) => void;

type KeyProps = {
  readonly label: string;
  readonly typed: string;
  readonly spoken: string;
  readonly likely: boolean;
  readonly onChange: ChangePad;
};

/** A key that types something; the likely next ones are marked. */
const Key = memo(function Key({ label, typed, spoken, likely, onChange }: KeyProps) {
  return (
    <BigButton
      label={label}
      settleMs={0}
      below={likely ? '●' : null}
      spoken={likely ? `${spoken}, ${words.pad.likely}` : spoken}
      onPress={() => onChange((pad) => pressed(pad, typed))}
    />
  );
});

/** The sizes that a reading here is likely to show, written as they are typed. */
function expectedSizes(pad: Pad, unit: DisplayUnit, glance: Glance | null): readonly string[] {
  if (glance === null || pad.unit !== unitSign(unit) || !(pad.ask === 'reading' || pad.ask === 'correct')) return [];
  const { window, last } = glance;
  const sizes = [window?.aim, window?.low, window?.high, last?.value, last === null ? glance.operation.target?.from : null];
  return sizes.flatMap((size) => (size === undefined || size === null ? [] : [bareSize(size, unit)]));
}

/** The number pad over the machine page: what is typed on one side, keys of the same size as the buttons on the other. */
export const NumberPad = memo(function NumberPad({ pad: up, unit, glance, onChange, onEnter, onCancel }: Props) {
  const self = useRef<HTMLDivElement>(null);
  const open = up !== null;
  useEffect(() => {
    if (open) self.current?.focus();
    else if (self.current?.contains(document.activeElement) === true) (document.activeElement as HTMLElement).blur();
  }, [open]);
  const pad = up ?? openPad('reading', unit, false);
  const w = words.pad;
  const likely = likelyKeys(pad.text, expectedSizes(pad, unit, glance));
  const key = (label: string, typed: string, spoken = label) => (
    <Key key={label} label={label} typed={typed} spoken={spoken} likely={likely.has(typed)} onChange={onChange} />
  );
  const nothing = (where: string) => <span key={where} className="empty-place" />;
  const units = unitsOf(pad.ask, unit);
  const pointFits = (pad.ask === 'reading' || pad.ask === 'correct') && /^\d+$/.test(pad.text);
  const complete = entered(pad, unit) !== null;
  return (
    <div
      className={open ? 'pad is-open' : 'pad'}
      role="dialog"
      aria-modal="true"
      aria-hidden={!open}
      aria-label={w.title[pad.ask]}
      tabIndex={-1}
      ref={self}
    >
      <div className="pad-side">
        <h2>{w.title[pad.ask]}</h2>
        {(pad.ask === 'reading' || pad.ask === 'correct') && (
          <>
            <p className="pad-spindle">{w.spindle}</p>
            <Reminder unit={unit} glance={glance} />
          </>
        )}
        <p className={`pad-typed ${pad.text === '' ? 'is-empty' : ''}`} role="status">
          {pad.text === '' ? (
            <span className="pad-hint">{w.empty}</span>
          ) : (
            <span className={pad.text.length > 7 ? 'pad-number is-long' : 'pad-number'}>{pad.text}</span>
          )}{' '}
          <span className="pad-unit">{w.units[pad.unit]}</span>
        </p>
        <p className="pad-state">{pad.text === '' ? '' : !complete ? w.notYet : pointFits ? w.pointFits : ''}</p>
        <div className="pad-tiles">
          {units.length > 1 && (
            <BigButton label={w.units[pad.unit]} below={w.unit} onPress={() => onChange((now) => turnedUnit(now, unit))} />
          )}
          {takesPlace(pad.ask) && (
            <>
              <BigButton
                label={pad.place === null ? w.anyPlace : words.places[pad.place]}
                below={w.place}
                onPress={() => onChange(turnedPlace)}
              />
              <BigButton
                label={pad.instrument === null ? w.wantedInstrument : words.instruments[pad.instrument]}
                below={w.instrument}
                onPress={() => onChange(turnedInstrument)}
              />
            </>
          )}
          {pad.ask === 'jaw' && <BigButton label={String(pad.jaw)} below={w.jaw} onPress={() => onChange(turnedJaw)} />}
        </div>
      </div>
      <div className="pad-keys">
        {['7', '8', '9'].map((digit) => key(digit, digit))}
        <BigButton label={w.erase} kind="word" settleMs={0} onPress={() => onChange(erased)} />
        {['4', '5', '6'].map((digit) => key(digit, digit))}
        {pad.signed ? (
          key('−', '-', w.minus)
        ) : takesFraction(pad) ? (
          <BigButton
            key="and"
            label={w.and}
            kind="word"
            spoken={w.andLong}
            settleMs={0}
            onPress={() => onChange((now) => pressed(now, ' '))}
          />
        ) : (
          nothing('and')
        )}
        {['1', '2', '3'].map((digit) => key(digit, digit))}
        {takesFraction(pad) ? key('/', '/', w.over) : nothing('over')}
        {key('0', '0')}
        {pad.unit === 'none' ? nothing('point') : key('.', '.', w.point)}
        <BigButton label={w.cancel} kind="word" onPress={onCancel} />
        <BigButton label={w.enter} kind="main word" onPress={() => onEnter(pad)} />
      </div>
    </div>
  );
});

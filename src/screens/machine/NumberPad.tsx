import { useEffect, useRef } from 'react';
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
  readonly pad: Pad;
  readonly unit: DisplayUnit;
  readonly glance: Glance | null;
  readonly onChange: (pad: Pad) => void;
  readonly onEnter: () => void;
  readonly onCancel: () => void;
};

/** The sizes that a reading here is likely to show, written as they are typed. */
function expectedSizes(pad: Pad, unit: DisplayUnit, glance: Glance | null): readonly string[] {
  if (glance === null || pad.unit !== unitSign(unit) || !(pad.ask === 'reading' || pad.ask === 'correct')) return [];
  const { window, last } = glance;
  const sizes = [window?.aim, window?.low, window?.high, last?.value, last === null ? glance.operation.target?.from : null];
  return sizes.flatMap((size) => (size === undefined || size === null ? [] : [bareSize(size, unit)]));
}

/** The number pad over the machine page: what is typed on one side, keys of the same size as the buttons on the other. */
export function NumberPad({ pad, unit, glance, onChange, onEnter, onCancel }: Props) {
  const self = useRef<HTMLDivElement>(null);
  useEffect(() => self.current?.focus(), []);
  const w = words.pad;
  const likely = likelyKeys(pad.text, expectedSizes(pad, unit, glance));
  const press = (key: string) => () => onChange(pressed(pad, key));
  const key = (label: string, typed: string, spoken?: string) => (
    <BigButton
      key={label}
      label={label}
      settleMs={0}
      below={likely.has(typed) ? '●' : null}
      spoken={likely.has(typed) ? `${spoken ?? label}, ${w.likely}` : (spoken ?? label)}
      onPress={press(typed)}
    />
  );
  const nothing = (where: string) => <span key={where} className="empty-place" />;
  const units = unitsOf(pad.ask, unit);
  const pointFits = (pad.ask === 'reading' || pad.ask === 'correct') && /^\d+$/.test(pad.text);
  const complete = entered(pad, unit) !== null;
  return (
    <div className="pad" role="dialog" aria-modal="true" aria-label={w.title[pad.ask]} tabIndex={-1} ref={self}>
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
            <BigButton label={w.units[pad.unit]} below={w.unit} onPress={() => onChange(turnedUnit(pad, unit))} />
          )}
          {takesPlace(pad.ask) && (
            <>
              <BigButton
                label={pad.place === null ? w.anyPlace : words.places[pad.place]}
                below={w.place}
                onPress={() => onChange(turnedPlace(pad))}
              />
              <BigButton
                label={pad.instrument === null ? w.wantedInstrument : words.instruments[pad.instrument]}
                below={w.instrument}
                onPress={() => onChange(turnedInstrument(pad))}
              />
            </>
          )}
          {pad.ask === 'jaw' && <BigButton label={String(pad.jaw)} below={w.jaw} onPress={() => onChange(turnedJaw(pad))} />}
        </div>
      </div>
      <div className="pad-keys">
        {['7', '8', '9'].map((digit) => key(digit, digit))}
        <BigButton label={w.erase} kind="word" settleMs={0} onPress={() => onChange(erased(pad))} />
        {['4', '5', '6'].map((digit) => key(digit, digit))}
        {pad.signed ? (
          key('−', '-', w.minus)
        ) : takesFraction(pad) ? (
          <BigButton key="and" label={w.and} kind="word" spoken={w.andLong} settleMs={0} onPress={press(' ')} />
        ) : (
          nothing('and')
        )}
        {['1', '2', '3'].map((digit) => key(digit, digit))}
        {takesFraction(pad) ? key('/', '/', w.over) : nothing('over')}
        {key('0', '0')}
        {pad.unit === 'none' ? nothing('point') : key('.', '.', w.point)}
        <BigButton label={w.cancel} kind="word" onPress={onCancel} />
        <BigButton label={w.enter} kind="main word" onPress={onEnter} />
      </div>
    </div>
  );
}

import { useId, type KeyboardEvent } from 'react';
import type { DisplayUnit } from '../../measure/index.ts';
import type { DraftField, FieldReading } from '../../part/index.ts';
import { bareSize, bothLimits } from '../show.ts';
import { layoutWords as w } from './layoutWords.ts';

/** Another row that a field can name. */
export type Choice = { readonly value: string; readonly label: string };

type Props = {
  readonly field: DraftField;
  readonly label: string;
  readonly text: string;
  readonly unit: DisplayUnit;
  readonly choices: readonly Choice[] | null;
  readonly reading: FieldReading | null;
  readonly says: string | null;
  /** The name of the field in the page, for the list of what is wanted. */
  readonly id: string;
  readonly onType: (text: string) => void;
  readonly onFocus?: () => void;
};

/** Enter goes on to the next field, as Tab does. */
export function onEnter(event: KeyboardEvent<HTMLInputElement>): void {
  if (event.key !== 'Enter') return;
  event.preventDefault();
  const fields = [...document.querySelectorAll<HTMLElement>('.layout input:not([type=file]), .layout select, .layout .goes-on')];
  fields[fields.indexOf(event.currentTarget) + 1]?.focus();
}

/** What a field was read as, where that is more than what stands in it. */
function readAs(reading: FieldReading | null, unit: DisplayUnit, text: string): string | null {
  if (reading === null) return null;
  const { low, high, fit, unproven } = reading;
  if (low === high) return fit === null ? null : w.read.fit(bareSize(low, unit), fit);
  const limits = w.read.limits(...bothLimits(low, high, unit));
  if (fit === null && limits === text.trim()) return null;
  const said = fit === null ? limits : w.read.fit(limits, fit);
  return unproven ? `${said}: ${w.read.unproven}` : said;
}

const example = (field: DraftField, unit: DisplayUnit): string => {
  const examples = w.examples[unit] ?? {};
  return examples[field.name] ?? examples[field.type] ?? '';
};

/** Letters that a field of one column shows. */
const LONG = 12;

/**
 * One field of the table: its label, what is typed, and under it what that was read as, or what is wrong with it. That an empty
 * one is wanted stands in the list beside the table; here it is only read out.
 */
export function Field({ field, label, text, unit, choices, reading, says, id, onType, onFocus }: Props) {
  const under = useId();
  const wrong = says !== null && text !== '';
  const common = { id, 'aria-describedby': under, 'aria-invalid': wrong || undefined, onFocus };
  return (
    <div className={`cell is-${field.type} ${text.length > LONG ? 'is-long' : ''} ${wrong ? 'is-wrong' : ''}`}>
      <label htmlFor={id}>{label}</label>
      {choices === null ? (
        <input
          {...common}
          type="text"
          value={text}
          placeholder={example(field, unit)}
          autoComplete="off"
          autoCapitalize="off"
          spellCheck={false}
          enterKeyHint="next"
          onKeyDown={onEnter}
          onChange={(event) => onType(event.target.value)}
        />
      ) : (
        <select {...common} value={text} onChange={(event) => onType(event.target.value)}>
          {(!field.needed || field.type !== 'choice') && <option value="">{w.none}</option>}
          {choices.map(({ value, label: named }) => (
            <option key={value} value={value}>
              {named}
            </option>
          ))}
        </select>
      )}
      <p id={under} className="cell-under">
        {wrong ? (
          <span className="cell-says">{says}</span>
        ) : says !== null ? (
          <span className="only-read">{says}</span>
        ) : (
          readAs(reading, unit, text)
        )}
      </p>
    </div>
  );
}

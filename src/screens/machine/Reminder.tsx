import type { DisplayUnit } from '../../measure/index.ts';
import type { Glance } from '../../job/index.ts';
import { bareSize, unitSign } from '../show.ts';
import { words } from '../words.ts';

/** Target and last reading in one line, so that nobody has to look behind the number pad or a question. */
export function Reminder({ unit, glance }: { readonly unit: DisplayUnit; readonly glance: Glance | null }) {
  const target = glance?.operation.target ?? null;
  if (glance === null || glance.window === null || target === null) return null;
  const { window, last } = glance;
  return (
    <p className="reminder">
      {words.target[target.quantity]} <b>{bareSize(window.aim, unit)}</b> {unitSign(unit)}
      {last !== null && (
        <>
          {' · '}
          {words.lastReading} <b>{bareSize(last.value, unit)}</b>
        </>
      )}
    </p>
  );
}

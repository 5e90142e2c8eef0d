import type { DisplayUnit } from '../../measure/index.ts';
import type { Glance } from '../../job/index.ts';
import { bareSize, unitSign } from '../show.ts';
import { words } from '../words.ts';

/** Target and last reading, each unbroken, so that nobody has to look behind the number pad or a question. */
export function Reminder({ unit, glance }: { readonly unit: DisplayUnit; readonly glance: Glance | null }) {
  const target = glance?.operation.target ?? null;
  if (glance === null || glance.window === null || target === null) return null;
  const { window, last } = glance;
  return (
    <p className="reminder">
      <span>
        {words.target[target.quantity]} <b>{bareSize(window.aim, unit)}</b> {unitSign(unit)}
      </span>
      {last !== null && (
        <>
          {' '}
          <span>
            {words.lastOf(glance.readings)} <b>{bareSize(last.value, unit)}</b>
          </span>
        </>
      )}
    </p>
  );
}

import { useLayoutEffect, useRef } from 'react';
import type { Glance } from '../../job/index.ts';
import { words } from '../words.ts';
import { BigButton } from './BigButton.tsx';
import type { Deed, RowButton } from './row.ts';
import { TalkButton } from './TalkButton.tsx';
import type { RowUp } from './useMachine.ts';

const isNext = (button: RowButton): boolean => button.deed.do === 'say' && button.deed.intent.type === 'next';

/** What stands under a label, where there is something worth knowing before pressing. */
function underLabel(button: RowButton, glance: Glance | null): string | null {
  if (isNext(button)) return glance?.next?.say ?? null;
  const instrument = glance?.operation.instrument ?? null;
  const reads = button.deed.do === 'pad' && button.deed.ask === 'reading';
  return reads && instrument !== null ? words.instruments[instrument] : null;
}

/** When all is done there is nothing next but the record: its button stands in the same place. */
const RECORD: RowButton = { label: words.buttons.record, deed: { do: 'page', page: 'record' } };

/** The row of four: three that do something, and always at the end the one that turns the row over. */
export function ButtonRow({
  row,
  glance,
  onDeed,
}: {
  readonly row: RowUp;
  readonly glance: Glance | null;
  readonly onDeed: (deed: Deed) => void;
}) {
  const { places, turnsTo } = row.row;
  const group = useRef<HTMLDivElement>(null);
  /** The place that has the focus of the keyboard; -1 where none has. React tells of no blur when it takes a button away. */
  const focusedAt = useRef(-1);
  useLayoutEffect(() => {
    const buttons = group.current?.children;
    if (buttons === undefined || focusedAt.current < 0 || group.current?.contains(document.activeElement) === true) return;
    const same = buttons[focusedAt.current];
    (same instanceof HTMLButtonElement ? same : group.current?.querySelector<HTMLElement>(':scope > :last-child'))?.focus();
  }, [row.id]);
  return (
    <div
      className="button-row"
      role="group"
      aria-label={words.parts.buttons}
      ref={group}
      onFocus={({ target }) => {
        focusedAt.current = [...(group.current?.children ?? [])].indexOf(target);
      }}
      onBlur={() => {
        focusedAt.current = -1;
      }}
    >
      {places.map((button, index) => {
        if (button === null) return <span key={index} className="empty-place" />;
        if (button.deed.do === 'talk') return <TalkButton key={index} />;
        const shown = isNext(button) && glance === null ? RECORD : button;
        return (
          <BigButton
            key={`${row.id}-${index}`}
            label={shown.label}
            below={underLabel(shown, glance)}
            kind={isNext(button) ? 'main' : 'plain'}
            onPress={() => onDeed(shown.deed)}
          />
        );
      })}
      <BigButton
        key={`${row.id}-turn`}
        label={turnsTo === 'first' ? words.buttons.firstRow : words.buttons.more}
        kind="turn"
        onPress={() => onDeed({ do: 'row', row: turnsTo })}
      />
    </div>
  );
}

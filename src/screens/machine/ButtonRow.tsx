import type { Glance } from '../../job/index.ts';
import { words } from '../words.ts';
import { BigButton } from './BigButton.tsx';
import { ROWS, type Deed, type RowId } from './buttonRows.ts';
import { TalkButton } from './TalkButton.tsx';

/** What stands under a label, where there is something worth knowing before pressing. */
function underLabel(deed: Deed, glance: Glance | null): string | null {
  if (deed.do === 'say' && deed.intent.type === 'next') return glance?.next?.say ?? null;
  if (deed.do === 'pad' && deed.ask === 'reading') {
    const instrument = glance?.operation.instrument ?? null;
    return instrument === null ? null : words.instruments[instrument];
  }
  return null;
}

/** The row of four: three that do something, and always at the end the one that turns the row over. */
export function ButtonRow({ row, glance, onDeed }: { readonly row: RowId; readonly glance: Glance | null; readonly onDeed: (deed: Deed) => void }) {
  const { places, turnsTo } = ROWS[row];
  return (
    <div className="button-row" role="group" aria-label={words.parts.buttons}>
      {places.map((button, index) => {
        if (button === null) return <span key={index} className="empty-place" />;
        if (button.deed.do === 'talk') return <TalkButton key={index} />;
        const main = button.deed.do === 'say' && button.deed.intent.type === 'next';
        return (
          <BigButton
            key={`${row}-${index}`}
            label={button.label}
            below={underLabel(button.deed, glance)}
            kind={main ? 'main' : 'plain'}
            onPress={() => onDeed(button.deed)}
          />
        );
      })}
      <BigButton
        key={`${row}-turn`}
        label={turnsTo === 'first' ? words.buttons.firstRow : words.buttons.more}
        kind="turn"
        onPress={() => onDeed({ do: 'row', row: turnsTo })}
      />
    </div>
  );
}

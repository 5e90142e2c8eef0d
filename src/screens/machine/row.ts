import type { Intent } from '../../job/index.ts';
import type { ListeningMode } from '../../app/index.ts';
import { words } from '../words.ts';
import type { PadAsk } from './pad.ts';

/** What pressing a button does. */
export type Deed =
  | { readonly do: 'say'; readonly intent: Intent }
  | { readonly do: 'pad'; readonly ask: PadAsk }
  | { readonly do: 'row'; readonly row: RowId }
  | { readonly do: 'page'; readonly page: 'jobs' | 'record' }
  | { readonly do: 'listen'; readonly mode: ListeningMode }
  | { readonly do: 'theme' }
  | { readonly do: 'talk' };

export type RowButton = { readonly label: string; readonly deed: Deed };

/** Three places; the fourth is always the button that turns the row over. `null` leaves a place empty. */
export type Row = { readonly places: readonly [RowButton | null, RowButton | null, RowButton | null]; readonly turnsTo: RowId };

export type RowId =
  | 'first'
  | 'right'
  | 'groups'
  | 'more-groups'
  | 'ask-1'
  | 'ask-2'
  | 'ask-3'
  | 'ask-4'
  | 'cut-1'
  | 'cut-2'
  | 'cut-3'
  | 'fit-1'
  | 'fit-2'
  | 'fit-3'
  | 'fit-4'
  | 'set-up-1'
  | 'set-up-2'
  | 'set-up-3'
  | 'set-ups'
  | 'holes-1'
  | 'holes-2'
  | 'holes-3'
  | 'taper-1'
  | 'taper-2'
  | 'taper-3'
  | 'steps-1'
  | 'steps-2'
  | 'steps-3'
  | 'pages-1'
  | 'pages-2'
  | 'pages-3'
  | 'pages-4';

/** The row that is up at first, and whenever something has been done. It is there before the phrasebook's table has come. */
export const FIRST_ROW: Row = {
  places: [
    { label: words.buttons.reading, deed: { do: 'pad', ask: 'reading' } },
    { label: words.buttons.talk.hold, deed: { do: 'talk' } },
    { label: words.buttons.next, deed: { do: 'say', intent: { type: 'next' } } },
  ],
  turnsTo: 'right',
};

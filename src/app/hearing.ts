import type { Ear } from '../ear/index.ts';
import type { Hearing } from './assistantState.ts';

/** An ear's settings and set-up as the screens see them; `changed` is called after each change, so that they are shown anew. */
export const hearingOf = (ear: Ear, changed: () => void): Hearing => ({
  settings: ear.settings,
  change: (change) => {
    ear.change(change);
    changed();
  },
  study: (said) => ear.study(said),
  fit: (takes) => ear.fit(takes),
});

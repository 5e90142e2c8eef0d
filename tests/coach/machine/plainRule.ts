import type { Journal, Outcome } from './journal.ts';
import { outcomeOf } from './journal.ts';

/**
 * The plain rule: read, dial what is left, halve when near, until the reading is in the window. What is left is taken in cuts no
 * deeper than the machine's, without a reading between them. `nearUm` on the diameter: from there on half of what is left is
 * dialled and the micrometer read; before it the caliper. A `careful` person dials what is left down to near; the other one all.
 */
export function byPlainRule(journal: Journal, nearUm: number, careful: boolean): Outcome {
  const { lathe, person, window } = journal;
  const near = nearUm * 1_000;
  const step = lathe.division / 2;
  const deepest = lathe.kind.deepest * 1_000;
  let last: number = journal.from;
  let cutting = false;
  for (let turn = 0; turn < 40; turn += 1) {
    const fine = last - window.aim <= near;
    if (fine && journal.waitsUnasked) person.cool(true);
    else person.noteWarm();
    let size = person.read(fine ? 'micrometer' : 'caliper', 0);
    // Nobody believes that a journal has grown, or lost more than twice what was dialled and half a millimetre: read again.
    if (cutting && size > last + 50_000) size = person.read(fine ? 'micrometer' : 'caliper', 0);
    if (!fine && size - window.aim <= near) size = person.read('micrometer', 0);
    if (size < window.low) return outcomeOf(journal, 'given-up');
    if (size <= window.high) return outcomeOf(journal, 'accepted');
    const left = size - window.aim;
    const wanted = left > near ? (careful ? left - 0.8 * near : left) : left / 2;
    let dialled = 0;
    while (dialled < wanted - step / 2) {
      const each = Math.max(step, Math.round(Math.min(deepest, wanted - dialled) / step) * step);
      person.cut(each);
      dialled += each;
    }
    if (dialled === 0) person.cut(step);
    cutting = true;
    last = size;
  }
  return outcomeOf(journal, 'undecided');
}

import { Conversation } from '../../../src/app/index.ts';
import { openJob } from '../../../src/cli/openJob.ts';
import type { Context } from '../../../src/job/index.ts';
import { memoryShelf, openLog } from '../../../src/shelf/index.ts';

/** After so many sentences another job is begun, as in a shop: a log that grows all day would show as memory that grows. */
const SENTENCES_A_JOB = 40;

/** A job of the demos that what was heard moves on, and the moment that it is in. */
export async function soakJob(): Promise<{ context(): Context; hear(words: string): Promise<void> }> {
  let ids = 0;
  async function begun(): Promise<Conversation> {
    const shelf = memoryShelf(() => 0);
    const taken = await shelf.take(await openJob('demo:inch'), { newId: 'soak', at: 0 });
    if (!taken.ok) throw new Error(taken.error.key);
    const stored = await shelf.open(taken.value.id);
    if (!stored.ok) throw new Error(stored.error.key);
    const talk = new Conversation(stored.value, {
      log: openLog(shelf, stored.value),
      now: () => ids,
      tick: () => performance.now(),
      newId: () => `soak-${(ids += 1)}`,
      bareReadings: () => true,
    });
    // The first step is facing; the second has a diameter to read.
    await talk.type('next');
    return talk;
  }
  let talk = await begun();
  let sentences = 0;
  return {
    context: () => talk.context,
    async hear(words) {
      sentences += 1;
      if (sentences % SENTENCES_A_JOB === 0) talk = await begun();
      await talk.hear(words, 1);
    },
  };
}

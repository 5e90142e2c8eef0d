/** Work that stops now and then, so that something else can be done between: in a page, drawing and listening. */
export type Sliced<T> = Generator<undefined, T, undefined>;

/** Does it without stopping. */
export function atOnce<T>(work: Sliced<T>): T {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
  }
}

/** Does it with a `pause` at every stop. */
export async function inSlices<T>(work: Sliced<T>, pause: () => Promise<void>): Promise<T> {
  for (;;) {
    const step = work.next();
    if (step.done === true) return step.value;
    await pause();
  }
}

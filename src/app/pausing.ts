/** The page is drawn at least so often while long work goes on, in milliseconds. */
const DRAWN_EVERY_MS = 8;

/** A pause for long work: lets the page be drawn and pressed where it has not been for a while. */
export function pausing(tick: () => number, afterPainting: () => Promise<void>): () => Promise<void> {
  let drawnAt = tick();
  return async () => {
    if (tick() - drawnAt < DRAWN_EVERY_MS) return;
    await afterPainting();
    drawnAt = tick();
  };
}

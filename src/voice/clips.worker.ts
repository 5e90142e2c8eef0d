import { fetchClips } from './fetch-clips.ts';

/** The worker's own scope; the page's library of types stands beside it and names it otherwise. */
const scope = self as unknown as {
  readonly name: string;
  postMessage(message: unknown, handedOver: readonly Transferable[]): void;
};

/** The worker is named after the page's folder. */
const clips = await fetchClips(scope.name);
scope.postMessage(clips, clips.ok ? [clips.value.sprite.buffer] : []);

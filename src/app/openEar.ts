import { createEar, earSettingsIn, type Ear } from '../ear/index.ts';

/**
 * The page's ear, with the recogniser's files from the page's own folder. Rejects with a sentence when they cannot be used. How
 * long it took stands among the page's measures as "ear open".
 */
export async function openPageEar(base: string): Promise<Ear> {
  const start = performance.now();
  const ear = await createEar({ modelsUrl: `${base}models/`, settings: earSettingsIn(localStorage) });
  performance.measure('ear open', { start });
  return ear;
}

import { createEar, earSettingsIn } from '../ear/index.ts';
import type { Context } from '../job/index.ts';
import { grammarFor } from '../phrasebook/index.ts';
import type { PageEar } from './ports.ts';

/**
 * The page's ear, with the recogniser's files from the page's own folder. Rejects with a sentence when they cannot be used. How
 * long it took stands among the page's measures as "ear open".
 */
export async function openPageEar(base: string): Promise<PageEar> {
  const start = performance.now();
  const ear = await createEar({ modelsUrl: `${base}models/`, settings: earSettingsIn(localStorage) });
  performance.measure('ear open', { start });
  // Put on the ear itself: what it tells of itself changes, and a copy would keep what it was.
  return Object.assign(ear, { listenFor: (context: Context) => ear.setGrammar(grammarFor(context)) });
}

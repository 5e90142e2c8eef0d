import { createEar, earSettingsIn, type Ear } from '../ear/index.ts';

/** The page's ear, with the recogniser's files from the page's own folder. Rejects with a sentence when they cannot be used. */
export const openPageEar = (base: string): Promise<Ear> =>
  createEar({ modelsUrl: `${base}models/`, settings: earSettingsIn(localStorage) });

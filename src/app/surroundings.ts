import type { Surroundings } from './diagnostic.ts';
import type { Safekeeping } from './safekeepingState.ts';

/** What the browser says of itself, for the diagnostic file. Nothing in it is sent anywhere. */
export async function surroundings({ persistence, copy }: Pick<Safekeeping, 'persistence' | 'copy'>): Promise<Surroundings> {
  // Missing on pages served without HTTPS, whatever the types say.
  const storage = navigator.storage as StorageManager | undefined;
  const estimate = await storage?.estimate().catch(() => null);
  return {
    browser: navigator.userAgent,
    language: navigator.language,
    secure: isSecureContext,
    servedByWorker: 'serviceWorker' in navigator && navigator.serviceWorker.controller !== null,
    usedBytes: estimate?.usage ?? null,
    roomBytes: estimate?.quota ?? null,
    persistence,
    secondCopy: copy,
    screen: [innerWidth, innerHeight],
  };
}

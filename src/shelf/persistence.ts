/**
 * `kept`: the browser promises not to clear the store by itself; `may-be-cleared`: it may when the device runs short, so a
 * backup file is worth more; `cannot-tell`: the browser does not say.
 */
export type Persistence = 'kept' | 'may-be-cleared' | 'cannot-tell';

/** Asks the browser not to clear the store by itself. Pass `navigator.storage`; it is missing on pages served without HTTPS. */
export async function askToPersist(storage: Pick<StorageManager, 'persist' | 'persisted'> | undefined): Promise<Persistence> {
  if (storage === undefined) return 'cannot-tell';
  try {
    return (await storage.persisted()) || (await storage.persist()) ? 'kept' : 'may-be-cleared';
  } catch {
    return 'cannot-tell';
  }
}

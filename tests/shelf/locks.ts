type Granted = (lock: Lock | null) => unknown;
type Held = { readonly rob: () => void };

/** The exclusive part of the Web Locks API (W3C, "The LockManager object"), for Node: first come first served, and `steal`. */
export function lockManager(): Pick<LockManager, 'request'> {
  const held = new Map<string, Held>();
  const lines = new Map<string, (() => void)[]>();
  const aborted = (): DOMException => new DOMException('The request was aborted', 'AbortError');

  function grant(name: string, granted: Granted, resolve: (value: unknown) => void, reject: (error: unknown) => void): void {
    const mine: Held = { rob: () => reject(aborted()) };
    held.set(name, mine);
    void Promise.resolve(granted({ name, mode: 'exclusive' })).then((value) => {
      if (held.get(name) !== mine) return;
      held.delete(name);
      lines.get(name)?.shift()?.();
      resolve(value);
    });
  }

  const request = (name: string, options: LockOptions, granted: Granted): Promise<unknown> =>
    new Promise((resolve, reject) => {
      const line = lines.get(name) ?? [];
      lines.set(name, line);
      // Granted in a later turn, as in a browser.
      setTimeout(() => {
        const holder = held.get(name);
        if (options.steal === true) holder?.rob();
        if (options.steal === true || holder === undefined) {
          grant(name, granted, resolve, reject);
          return;
        }
        if (options.ifAvailable === true) {
          resolve(granted(null));
          return;
        }
        const turn = (): void => grant(name, granted, resolve, reject);
        line.push(turn);
        options.signal?.addEventListener('abort', () => {
          if (line.includes(turn)) line.splice(line.indexOf(turn), 1);
          reject(aborted());
        });
      });
    });
  return { request } as Pick<LockManager, 'request'>;
}

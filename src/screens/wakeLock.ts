import { useEffect } from 'react';

/** Keeps the screen from going dark while a part of the page is shown; quiet where the browser cannot or will not. */
export function useWakeLock(): void {
  useEffect(() => {
    let lock: WakeLockSentinel | null = null;
    let over = false;
    const ask = async (): Promise<void> => {
      if (!('wakeLock' in navigator) || document.visibilityState !== 'visible') return;
      try {
        const got = await navigator.wakeLock.request('screen');
        if (over) void got.release();
        else lock = got;
      } catch {
        // Low battery or a setting: the device decides, and asks nothing of the person.
      }
    };
    const seen = (): void => void ask();
    void ask();
    // The browser drops the lock whenever the page is hidden.
    document.addEventListener('visibilitychange', seen);
    return () => {
      over = true;
      document.removeEventListener('visibilitychange', seen);
      void lock?.release();
    };
  }, []);
}

/** Whether this window may write to the job, or only shows what another writes. */
export type Standing = 'writing' | 'showing';

export type JobHold = {
  readonly standing: () => Standing;
  /** Asks the window that writes to finish what it has in hand, then takes its place; unanswered for `patienceMs`, anyway. */
  takeOver(): Promise<void>;
  /** Tells the other windows that event `seq` is stored, so that they read it. */
  announce(seq: number): void;
  /** Lets the job go; the window that waited longest writes next. */
  release(): void;
};

type Message =
  | { readonly type: 'asks'; readonly from: string }
  | { readonly type: 'ready'; readonly for: string }
  | { readonly type: 'stored'; readonly seq: number };

export type HoldEdges = {
  /** `navigator.locks`, or null where the browser has none: then every window writes, and only the numbering guards the log. */
  readonly locks: Pick<LockManager, 'request'> | null;
  readonly channel: (name: string) => BroadcastChannel;
  /** An id of this window, different from those of the others. */
  readonly window: string;
  readonly patienceMs: number;
  /** Called with each change, not with the first standing. */
  readonly onStanding: (standing: Standing) => void;
  /** Another window has stored event `seq`. */
  readonly onStored: (seq: number) => void;
  /** Resolves when nothing of this window is on its way into the store. */
  readonly settled: () => Promise<void>;
};

/**
 * Holds a job for this window by a Web Lock: one window writes, the others show. Resolves with the first standing known.
 * Invariants: of the windows that answer, at most one is `writing`; a window that is closed or crashes frees the job by
 * itself. A window that had hung may believe for a moment that it still writes: the store refuses its events by their number.
 */
export async function holdJob(job: string, edges: HoldEdges): Promise<JobHold> {
  const { locks, patienceMs } = edges;
  const name = `swarfside-job:${job}`;
  const channel = edges.channel(name);
  let standing: Standing = 'showing';
  let told = false;
  let left = false;
  /** The lock while this window has it. */
  let held: { readonly letGo: () => void } | null = null;
  /** Ends this window's place in the line for the lock. */
  let line: AbortController | null = null;
  let onReady: () => void = () => undefined;

  function stand(next: Standing): void {
    if (next === standing || left) return;
    standing = next;
    if (told) edges.onStanding(next);
  }
  const say = (message: Message): void => {
    if (!left) channel.postMessage(message);
  };

  /** Asks for the lock; resolves with whether it was granted, and keeps it until this window lets it go or is robbed of it. */
  function request(from: Pick<LockManager, 'request'>, options: LockOptions): Promise<boolean> {
    return new Promise((known) => {
      let granted = false;
      from
        .request(name, options, (lock) => {
          granted = lock !== null && !left;
          known(granted);
          if (!granted) return undefined;
          return new Promise<void>((letGo) => {
            held = { letGo };
            stand('writing');
          });
        })
        .catch((error: unknown) => {
          known(false);
          const aborted = error instanceof DOMException && error.name === 'AbortError';
          // A browser that refuses locks altogether is as one without them: the store still guards the log.
          if (!aborted) stand('writing');
          if (!aborted || !granted || left) return;
          held = null;
          stand('showing');
          lineUp(from);
        });
    });
  }

  function lineUp(from: Pick<LockManager, 'request'>): void {
    line = new AbortController();
    void request(from, { signal: line.signal });
  }

  async function giveWay(asker: string): Promise<void> {
    if (standing !== 'writing') return;
    const mine = held;
    stand('showing');
    await edges.settled();
    say({ type: 'ready', for: asker });
    // Should the asker be gone by now, this window still has the lock and goes on writing.
    setTimeout(() => {
      if (held !== null && held === mine) stand('writing');
    }, 2 * patienceMs);
  }

  channel.addEventListener('message', ({ data }: MessageEvent<Message>) => {
    switch (data.type) {
      case 'asks':
        void giveWay(data.from);
        break;
      case 'ready':
        if (data.for === edges.window) onReady();
        break;
      case 'stored':
        edges.onStored(data.seq);
        break;
    }
  });

  if (locks === null) standing = 'writing';
  else if (!(await request(locks, { ifAvailable: true }))) lineUp(locks);
  told = true;

  return {
    standing: () => standing,
    async takeOver() {
      if (locks === null || standing === 'writing') return;
      const ready = new Promise<void>((resolve) => {
        onReady = resolve;
        setTimeout(resolve, patienceMs);
      });
      say({ type: 'asks', from: edges.window });
      await ready;
      if (left || held !== null) return;
      line?.abort();
      await request(locks, { steal: true });
    },
    announce: (seq) => say({ type: 'stored', seq }),
    release() {
      left = true;
      standing = 'showing';
      line?.abort();
      held?.letGo();
      channel.close();
    },
  };
}

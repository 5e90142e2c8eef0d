import { WebsocketProvider } from 'y-websocket';
import { Doc, type YMapEvent } from 'yjs';
import type { JobHead } from '../shelf/index.ts';

/** How the connection stands; `refused` is for good: the code is not the one of the desk. */
export type ReplicaStanding = 'connecting' | 'connected' | 'cut' | 'refused';

/**
 * One document that every connected device holds: jobs that are being worked on, and their events by id. It only grows; what
 * arrives late, twice or out of order comes to the same. It keeps nothing: the shelf does.
 */
export interface Replica {
  /** Adds a job, and those of its events that are not there yet, as JSON texts; their numbers do not count. */
  put(head: JobHead, events: readonly string[]): void;
  head(job: string): JobHead | null;
  /** The texts of a job's events, in no order. */
  events(job: string): readonly string[];
  close(): void;
}

export type ReplicaEdges = {
  /** `wss://host:port/share`, of the page's own origin. */
  readonly url: string;
  readonly code: string;
  readonly onStanding: (standing: ReplicaStanding) => void;
  /** Jobs of which other devices have told something. */
  readonly onChange: (jobs: ReadonlySet<string>) => void;
  /** For Node, which has no socket of its own before version 22. */
  readonly socket?: typeof WebSocket;
};

const headOf = (value: unknown, job: string): JobHead | null => {
  // A build of version 1 told no version.
  const { plan, startedAt, version = 1 } = (typeof value === 'object' && value !== null ? value : {}) as Partial<JobHead>;
  return typeof plan === 'string' && typeof startedAt === 'number' && typeof version === 'number'
    ? { job, plan, startedAt, version }
    : null;
};

/** Opens the replica over Yjs and its own protocol for sockets; this file is a chunk of its own, fetched when it is needed. */
export function openReplica({ url, code, onStanding, onChange, socket }: ReplicaEdges): Replica {
  const doc = new Doc();
  const heads = doc.getMap<unknown>('jobs');
  // Keys are `job/event`: a job id has no slash.
  const events = doc.getMap<unknown>('events');
  /** The same events by job, so that one job can be had without looking at all. */
  const byJob = new Map<string, Map<string, string>>();

  const jobOf = (key: string): string => key.slice(0, key.indexOf('/'));
  const keysOf = (change: YMapEvent<unknown>): readonly string[] => [...(change.keysChanged as ReadonlySet<string>)];
  events.observe((change: YMapEvent<unknown>) => {
    for (const key of keysOf(change)) {
      const text = events.get(key);
      if (typeof text !== 'string' || !key.includes('/')) continue;
      const job = jobOf(key);
      const texts = byJob.get(job) ?? new Map<string, string>();
      byJob.set(job, texts.set(key, text));
    }
    if (!change.transaction.local) onChange(new Set(keysOf(change).map(jobOf)));
  });
  heads.observe((change: YMapEvent<unknown>) => {
    if (!change.transaction.local) onChange(new Set(keysOf(change)));
  });

  const provider = new WebsocketProvider(url, 'jobs', doc, {
    params: { code },
    disableBc: true,
    ...(socket === undefined ? {} : { WebSocketPolyfill: socket }),
  });
  provider.on('status', ({ status }: { status: string }) => {
    if (status === 'connected') onStanding('connected');
  });
  provider.on('connection-close', () => onStanding('cut'));
  provider.on('closed', () => onStanding('refused'));
  onStanding('connecting');

  return {
    put(head, texts) {
      doc.transact(() => {
        if (!heads.has(head.job)) heads.set(head.job, { plan: head.plan, startedAt: head.startedAt, version: head.version });
        for (const text of texts) {
          const { id } = JSON.parse(text) as { readonly id: string };
          const key = `${head.job}/${id}`;
          if (!events.has(key)) events.set(key, text);
        }
      });
    },
    head: (job) => headOf(heads.get(job), job),
    events: (job) => [...(byJob.get(job)?.values() ?? [])],
    close() {
      provider.destroy();
      doc.destroy();
    },
  };
}

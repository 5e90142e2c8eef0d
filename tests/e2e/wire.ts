import { spawn, type ChildProcess } from 'node:child_process';
import { createServer, request } from 'node:http';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import type { Page } from 'playwright-core';
import { WebSocket as NodeSocket, WebSocketServer } from 'ws';
import { root } from '../../scripts/setup/root.mjs';

/** `npm start -- --share` as a process of its own: its address and the code that it shows. */
export async function sharingDesk(): Promise<{ readonly child: ChildProcess; readonly url: string; readonly code: string }> {
  const child = spawn(process.execPath, [join(root, 'scripts/start.mjs'), '--share'], {
    env: { ...process.env, PORT: '0' },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let said = '';
  child.stdout.on('data', (piece) => (said += String(piece)));
  while (!said.includes('Code for working together')) {
    if (child.exitCode !== null) throw new Error(`npm start ended with code ${child.exitCode}`);
    await pause(50);
  }
  return { child, url: /http:\S+/.exec(said)?.[0] ?? '', code: /together: (\S+)/.exec(said)?.[1] ?? '' };
}

export type Wire = {
  readonly port: number;
  readonly cut: (ms: number) => Promise<void>;
  /** How many messages came out after one that had gone in later. */
  readonly overtaken: () => number;
  readonly close: () => void;
};

/** How long a message may be under way; several are at a time, so that they overtake one another. */
const LONGEST_WAY_MS = 60;

/**
 * A wire between a device and the desk that can be cut: then nothing passes, what is under way is lost, and nobody is told. Each
 * message takes its own time, so that later ones overtake.
 */
export async function wire(to: number, pick: (below: number) => number): Promise<Wire> {
  const ends = new Set<NodeSocket>();
  let whole = true;
  let overtaken = 0;
  function carry(from: NodeSocket, into: NodeSocket, open: Promise<unknown>): void {
    let sent = 0;
    let last = -1;
    from.on('message', (bytes: Buffer) => {
      const number = sent;
      sent += 1;
      void Promise.all([open, pause(pick(LONGEST_WAY_MS))]).then(() => {
        if (into.readyState !== NodeSocket.OPEN) return;
        if (number < last) overtaken += 1;
        last = Math.max(last, number);
        into.send(bytes);
      });
    });
    // What is said in closing is passed on where it may be: codes under 3000 are the protocol's own.
    from.on('close', (code, reason) => (code >= 3000 ? into.close(code, reason) : into.terminate()));
  }
  // The page comes through the same address, uncut, for a browser at this end.
  const http = createServer((asked, answered) => {
    const { method, url, headers } = asked;
    const through = request({ host: '127.0.0.1', port: to, method, path: url, headers }, (answer) => {
      answered.writeHead(answer.statusCode ?? 502, answer.headers);
      answer.pipe(answered);
    });
    through.on('error', () => answered.destroy());
    asked.pipe(through);
  });
  const server = new WebSocketServer({ server: http });
  server.on('connection', (near, upgrade) => {
    near.on('error', () => near.terminate());
    if (!whole) {
      near.terminate();
      return;
    }
    const far = new NodeSocket(`ws://127.0.0.1:${to}${upgrade.url ?? ''}`);
    const open = new Promise((resolve) => far.once('open', resolve));
    for (const end of [near, far]) {
      ends.add(end);
      end.on('error', () => end.terminate());
      end.on('close', () => ends.delete(end));
    }
    carry(near, far, open);
    carry(far, near, Promise.resolve());
  });
  await new Promise<void>((listening) => http.listen(0, '127.0.0.1', listening));
  const address = http.address();
  return {
    port: typeof address === 'object' && address !== null ? address.port : 0,
    cut: async (ms) => {
      whole = false;
      ends.forEach((end) => end.terminate());
      await pause(ms);
      whole = true;
    },
    overtaken: () => overtaken,
    close: () => {
      ends.forEach((end) => end.terminate());
      server.close();
      http.close();
      http.closeAllConnections();
    },
  };
}

/** What a page's browser has stored of a job, in order. */
export const storedIn = (page: Page, job: string): Promise<string[]> =>
  page.evaluate(
    (id) =>
      new Promise<string[]>((resolve, reject) => {
        const opening = indexedDB.open('swarfside-shelf');
        opening.onerror = () => reject(new Error('the store does not open'));
        opening.onsuccess = () => {
          const asked = opening.result
            .transaction('events')
            .objectStore('events')
            .getAll(IDBKeyRange.bound([id], [id, []]));
          asked.onsuccess = () => {
            opening.result.close();
            // What came in together lies in one row.
            const rows = asked.result as ({ text: string } | { texts: string[] })[];
            resolve(rows.flatMap((row) => ('texts' in row ? row.texts : [row.text])));
          };
        };
      }),
    job,
  );

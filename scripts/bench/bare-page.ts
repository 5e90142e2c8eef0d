import { readdirSync, readFileSync } from 'node:fs';
import { setTimeout as pause } from 'node:timers/promises';
import { WebSocket } from 'ws';
import { startChromium, takeDown, type LaunchOptions } from '../../tests/e2e/harness.ts';

/**
 * A page in which nothing but its own scripts runs. The driver of the tests has a page keep all that it fetches, a third larger
 * than it is, so the memory of a page under it is not that of a page in use.
 */
export type BarePage = {
  /** Goes to an address; resolves once it has been loaded. */
  readonly go: (url: string) => Promise<void>;
  /** The value of an expression in the page, or what it promises, as if a person had caused it. */
  readonly evaluate: (expression: string) => Promise<unknown>;
  /** Asks again and again until the expression is true. Throws after a minute. */
  readonly until: (expression: string) => Promise<void>;
  /** Presses the button whose label is like this, once it is there. */
  readonly press: (label: RegExp) => Promise<void>;
  /**
   * Megabytes that the page, its workers and its service worker hold, those shared with other processes by their share. The
   * browser's own windows are not among them.
   */
  readonly residentMB: () => number;
  readonly close: () => Promise<void>;
};

type Answer = { readonly id: number; readonly result?: unknown; readonly error?: { readonly message: string } };

/** One connection to a debugger: questions and their answers. */
async function connect(url: string): Promise<{ ask: (method: string, params?: object) => Promise<unknown>; close: () => void }> {
  const socket = new WebSocket(url);
  await new Promise<void>((resolve, reject) => socket.once('open', () => resolve()).once('error', reject));
  const waiting = new Map<number, { resolve: (result: unknown) => void; reject: (error: Error) => void }>();
  socket.on('message', (data: Buffer) => {
    const { id, result, error } = JSON.parse(data.toString('utf8')) as Answer;
    const asker = waiting.get(id);
    waiting.delete(id);
    if (error === undefined) asker?.resolve(result);
    else asker?.reject(new Error(error.message));
  });
  let asked = 0;
  return {
    ask: (method, params = {}) =>
      new Promise((resolve, reject) => {
        asked += 1;
        waiting.set(asked, { resolve, reject });
        socket.send(JSON.stringify({ id: asked, method, params }));
      }),
    close: () => socket.close(),
  };
}

/** Chromium's own windows are pages too, in processes that say so. */
const BROWSERS_OWN = '--top-chrome-webui';

/** What a file of /proc says, or nothing where the process has ended. */
function told(id: string, file: string): string {
  try {
    return readFileSync(`/proc/${id}/${file}`, 'utf8');
  } catch {
    return '';
  }
}

/** The processes of a browser's pages, workers and service workers. */
const renderers = (profile: string): readonly string[] =>
  readdirSync('/proc').filter((id) => {
    if (!/^\d+$/.test(id)) return false;
    const line = told(id, 'cmdline');
    return line.includes('--type=renderer') && line.includes(profile) && !line.includes(BROWSERS_OWN);
  });

const ownMB = (id: string): number => Number(/^Pss:\s+(\d+)/m.exec(told(id, 'smaps_rollup'))?.[1] ?? 0) / 1024;

/** Opens a page in a browser of its own. */
export async function openBarePage(options: LaunchOptions): Promise<BarePage> {
  const started = await startChromium(options);
  const { debuggerUrl } = started;
  const targets = (await (await fetch(`${debuggerUrl}/json/list`)).json()) as { type: string; webSocketDebuggerUrl: string }[];
  const target = targets.find(({ type }) => type === 'page');
  if (target === undefined) throw new Error('the browser opened no page');
  const { ask, close } = await connect(target.webSocketDebuggerUrl);
  const evaluate = async (expression: string): Promise<unknown> => {
    const params = { expression, awaitPromise: true, returnByValue: true, userGesture: true };
    const { result, exceptionDetails } = (await ask('Runtime.evaluate', params)) as {
      result: { value?: unknown };
      exceptionDetails?: { text: string; exception?: { description?: string } };
    };
    if (exceptionDetails !== undefined) throw new Error(exceptionDetails.exception?.description ?? exceptionDetails.text);
    return result.value;
  };
  const until = async (expression: string): Promise<void> => {
    const giveUpAt = performance.now() + 60_000;
    while ((await evaluate(expression)) !== true) {
      if (performance.now() > giveUpAt) throw new Error(`not within a minute: ${expression}`);
      await pause(50);
    }
  };
  return {
    async go(url) {
      await ask('Page.navigate', { url });
      await until(`location.href.startsWith(${JSON.stringify(url)}) && document.readyState === 'complete'`);
    },
    evaluate,
    until,
    async press(label) {
      const button = `[...document.querySelectorAll('button')].find((each) => ${label.toString()}.test(each.ariaLabel ?? each.textContent.trim()))`;
      await until(`${button} !== undefined`);
      await evaluate(`${button}.click()`);
    },
    residentMB: () => renderers(options.profile).reduce((sum, id) => sum + ownMB(id), 0),
    async close() {
      // Asked politely, Chromium writes its profile out before it goes.
      await ask('Browser.close').catch(() => undefined);
      await Promise.race([new Promise((ended) => started.child.once('exit', ended)), pause(5_000)]);
      close();
      await takeDown(started);
    },
  };
}

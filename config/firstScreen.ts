import type { Plugin } from 'vite';

const STYLES = /\s*<link rel="stylesheet"[^>]* href="\.\/([^"]+)">/g;
const ENTRY = /\s*<script type="module"[^>]* src="([^"]+)"><\/script>/;
const PRELOADED = /\s*<link rel="modulepreload"[^>]* href="([^"]+)">/g;

/**
 * Fetches the first load once the first screen has been drawn, two frames on; a hidden page draws none, and begins without.
 * All its scripts are asked for at once, since each names what it imports only when it has come, and run one after the other,
 * each in a task of its own: what lies between them is the browser's, to draw and to take input. Where one does not come, the
 * first screen says so.
 */
const begin = (entry: string, others: readonly string[]): string => `
      {
        const scripts = ${JSON.stringify([...others, entry])};
        const pause = () => new Promise((go) => {
          const { port1, port2 } = new MessageChannel();
          port1.onmessage = () => go(port1.close());
          port2.postMessage(null);
        });
        let begun = false;
        const begin = async () => {
          if (begun) return;
          begun = true;
          const come = [];
          for (const href of scripts) {
            const ask = Object.assign(document.createElement('link'), { rel: 'modulepreload', href });
            come.push(new Promise((done) => Object.assign(ask, { onload: done, onerror: done })));
            document.head.append(ask);
            await pause();
          }
          await Promise.all(come);
          try {
            for (const script of scripts) {
              await import(script);
              await pause();
            }
          } catch (error) {
            const status = document.querySelector('main.starting [role=status]');
            if (status) status.textContent = status.dataset.notCome;
            throw error;
          }
        };
        requestAnimationFrame(() => requestAnimationFrame(begin));
        setTimeout(begin, 500);
      }
    `;

/**
 * Lets the browser paint what index.html itself says before any script is asked for: the styles stand in the page, and the
 * scripts come after the first frame. The server allows both by their digests (`scripts/setup/serve.mjs`).
 */
export const firstScreen = (): Plugin => ({
  name: 'swarfside-first-screen',
  apply: 'build',
  transformIndexHtml: {
    order: 'post',
    handler(html, { bundle }) {
      const entry = ENTRY.exec(html)?.[1];
      if (entry === undefined) throw new Error('index.html names no module to begin with');
      const others = Array.from(html.matchAll(PRELOADED), ([, href = '']) => href);
      return html
        .replace(STYLES, (_, file: string) => {
          const styles = bundle?.[file];
          if (styles?.type !== 'asset') throw new Error(`index.html names the styles ${file}, which were not built`);
          Reflect.deleteProperty(bundle ?? {}, file);
          return `\n    <style>${String(styles.source).trim()}</style>`;
        })
        .replaceAll(PRELOADED, '')
        .replace(ENTRY, '')
        .replace('</body>', `  <script>${begin(entry, others)}</script>\n  </body>`);
    },
  },
});

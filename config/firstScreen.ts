import type { Plugin } from 'vite';

const STYLES = /\s*<link rel="stylesheet"[^>]* href="\.\/([^"]+)">/g;
const ENTRY = /\s*<script type="module"[^>]* src="([^"]+)"><\/script>/;
const PRELOADED = /\s*<link rel="modulepreload"[^>]* href="([^"]+)">/g;

/**
 * Fetches the first load once the first screen has been drawn, two frames on; a hidden page draws none, and begins without.
 * All its scripts are asked for at once, since each names what it imports only when it has come; each in a task of its own.
 */
const begin = (entry: string, others: readonly string[]): string => `
      {
        const scripts = ${JSON.stringify(others)};
        let begun = false;
        const begin = () => {
          if (begun) return;
          begun = true;
          const ask = (href) => document.head.append(Object.assign(document.createElement('link'), { rel: 'modulepreload', href }));
          for (const href of scripts) setTimeout(ask, 0, href);
          setTimeout(() => import(${JSON.stringify(entry)}), 0);
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
          return `\n    <style>${String(styles.source).trim()}</style>`;
        })
        .replaceAll(PRELOADED, '')
        .replace(ENTRY, '')
        .replace('</body>', `  <script>${begin(entry, others)}</script>\n  </body>`);
    },
  },
});

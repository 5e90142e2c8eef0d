import type { Plugin } from 'vite';

const STYLES = /\s*<link rel="stylesheet"[^>]* href="\.\/([^"]+)">/g;
const SCRIPTS = /(<script type="module"|<link rel="modulepreload")/g;

/**
 * Lets the browser paint what index.html itself says before any script has come: the styles stand in the page, and the scripts
 * give way to it. The server allows these styles by their digest (`scripts/setup/serve.mjs`).
 */
export const firstScreen = (): Plugin => ({
  name: 'swarfside-first-screen',
  apply: 'build',
  transformIndexHtml: {
    order: 'post',
    handler(html, { bundle }) {
      const written = html.replace(STYLES, (_, file: string) => {
        const styles = bundle?.[file];
        if (styles?.type !== 'asset') throw new Error(`index.html names the styles ${file}, which were not built`);
        return `\n    <style>${String(styles.source).trim()}</style>`;
      });
      return written.replace(SCRIPTS, '$1 fetchpriority="low"');
    },
  },
});

import { fileURLToPath } from 'node:url';
import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { modelFiles } from '../scripts/models/vitePlugin.ts';
import { firstScreen } from './firstScreen.ts';
import { pieces } from './pieces.ts';
import { withoutEval } from './withoutEval.ts';
import { withoutJsonSchema } from './withoutJsonSchema.ts';

const root = fileURLToPath(new URL('..', import.meta.url));

export default defineConfig({
  root,
  base: './',
  // Honest 404s: the recogniser asks for a file that may be absent and must not be given the page in its place.
  appType: 'mpa',
  plugins: [
    react(),
    withoutEval(),
    withoutJsonSchema(),
    firstScreen(),
    modelFiles(),
    VitePWA({
      strategies: 'generateSW',
      // The page itself asks before it changes to a new version: never in the middle of an operation.
      registerType: 'prompt',
      injectRegister: false,
      includeAssets: [],
      manifest: {
        id: './',
        name: 'Swarfside',
        short_name: 'Swarfside',
        description: 'A hands-free shop assistant for a manual lathe and mill. Works without a network.',
        lang: 'en',
        start_url: './',
        scope: './',
        display: 'standalone',
        orientation: 'any',
        background_color: '#101418',
        theme_color: '#101418',
        categories: ['utilities', 'productivity'],
        icons: [
          { src: 'icon.svg', sizes: 'any', type: 'image/svg+xml' },
          { src: 'icon-192.png', sizes: '192x192', type: 'image/png' },
          { src: 'icon-512.png', sizes: '512x512', type: 'image/png' },
          { src: 'icon-maskable-512.png', sizes: '512x512', type: 'image/png', purpose: 'maskable' },
        ],
      },
      workbox: {
        // Everything, the recogniser's files without a name ending included: offline means offline.
        globPatterns: ['**/*'],
        globIgnores: ['sw.js', 'workbox-*.js', '**/*.map'],
        maximumFileSizeToCacheInBytes: 64 * 1024 * 1024,
        // The page is one document; other addresses are files that exist or honest 404s.
        navigateFallback: null,
        cleanupOutdatedCaches: true,
        clientsClaim: true,
        skipWaiting: false,
      },
    }),
  ],
  resolve: { alias: { 'blob-polyfill': fileURLToPath(new URL('../src/ear/native-blob.ts', import.meta.url)) } },
  optimizeDeps: { exclude: ['soundswallower', 'onnxruntime-web'] },
  worker: { format: 'es', plugins: () => [withoutEval()] },
  build: {
    outDir: 'dist',
    emptyOutDir: true,
    target: 'es2022',
    chunkSizeWarningLimit: 4096,
    // Browsers that this page is for preload modules by themselves.
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
    // The rooms do nothing by being imported, so that a page fetches what it uses of a room and not the room.
    rolldownOptions: {
      output: { codeSplitting: pieces },
      treeshake: { moduleSideEffects: [{ test: /\/src\/(?!app\/main|.*\.(css|worker|worklet))/, sideEffects: false }] },
    },
  },
  server: { host: 'localhost' },
});
